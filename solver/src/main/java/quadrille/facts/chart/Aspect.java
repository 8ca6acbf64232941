package quadrille.facts.chart;

/** The facial or the lingual (palatal) side of a tooth. */
public enum Aspect {
  FACIAL("facial"),
  LINGUAL("lingual");

  private final String word;

  Aspect(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
