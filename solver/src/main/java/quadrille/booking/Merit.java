package quadrille.booking;

/** What can speak for an offer. */
public enum Merit {
  /** No way ends on an earlier day. */
  FINISHES_FIRST("finishes first"),
  /** All visits are with the same clinician. */
  SAME_CLINICIAN("same clinician"),
  /** All that the patient prefers is kept. */
  AS_PREFERRED("as preferred"),
  /** No way costs less when all terms are weighed. */
  BEST_BALANCE("best balance"),
  /** It lies at other times than those before it. */
  OTHER_TIMES("other times");

  private final String word;

  Merit(String word) {
    this.word = word;
  }

  /** As people and programs read it. */
  public String word() {
    return word;
  }
}
