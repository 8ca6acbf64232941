package quadrille.facts.practice;

/** How thick an insert is and what it is made for. */
public enum InsertClass {
  STANDARD("standard"),
  BROAD("broad"),
  SLIM("slim"),
  FINEST("finest"),
  SLEEVED("sleeved");

  private final String word;

  InsertClass(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
