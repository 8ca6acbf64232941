package quadrille.diary.booking;

/** What can speak for an offer. */
public enum Merit {
  /** No way ends on an earlier day. */
  FINISHES_FIRST("finishes first", "earliest"),
  /** All visits are with the same clinician. */
  SAME_CLINICIAN("same clinician", "same clinician"),
  /** All that the patient prefers is kept. */
  AS_PREFERRED("as preferred", "as preferred"),
  /** No way costs less when all terms are weighed. */
  BEST_BALANCE("best balance", "best overall"),
  /** It lies at other times than those before it. */
  OTHER_TIMES("other times", "other times");

  private final String word;
  private final String shortWord;

  Merit(String word, String shortWord) {
    this.word = word;
    this.shortWord = shortWord;
  }

  /** As programs read it. */
  public String word() {
    return word;
  }

  /** As it is read out, where an offer is to fit two lines. */
  public String shortWord() {
    return shortWord;
  }
}
