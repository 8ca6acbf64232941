package quadrille.diary.booking.problem;

/** What a booking can cost. */
public enum CostTerm {
  /** Days until the course is finished. */
  FINISH,
  /** Days until it starts, squared. */
  WAIT,
  /** Changes of clinician. */
  CLINICIAN_CHANGE,
  /** Visits with another clinician than preferred. */
  OTHER_CLINICIAN,
  /** Visits at other times than preferred. */
  OTHER_TIME,
  /** Minutes left over that nobody can use. */
  SLIVERS,
  /** Minutes of those who come only to inject. */
  INJECTOR,
  /** Days over the longest gap of the plan, as a clinician allowed. */
  LONGER_GAPS
}
