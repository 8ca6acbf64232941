package quadrille.facts.chart;

/** What stands at a tooth's position. */
public enum ToothStatus {
  NATURAL("natural"),
  IMPLANT("implant"),
  MISSING("missing"),
  PLANNED_EXTRACTION("planned-extraction");

  private final String word;

  ToothStatus(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
