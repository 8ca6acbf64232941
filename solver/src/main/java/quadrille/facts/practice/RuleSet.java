package quadrille.facts.practice;

/** Which set of maximum doses holds; the two are never mixed. */
public enum RuleSet {
  LABEL("label"),
  CONSERVATIVE("conservative");

  private final String word;

  RuleSet(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
