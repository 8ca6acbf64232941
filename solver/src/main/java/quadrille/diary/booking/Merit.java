package quadrille.diary.booking;

/** What can speak for an offer. */
public enum Merit {
  /** No way ends on an earlier day. */
  FINISHES_FIRST,
  /** All visits are with the same clinician. */
  SAME_CLINICIAN,
  /** All that the patient prefers is kept. */
  AS_PREFERRED,
  /** No way costs less when all terms are weighed. */
  BEST_BALANCE,
  /** All visits are booked already, and stay. */
  KEEPS_TIMES,
  /** It lies at other times than those before it. */
  OTHER_TIMES
}
