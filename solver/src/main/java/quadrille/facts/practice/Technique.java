package quadrille.facts.practice;

/** How an injection is given, which decides onset and how long it lasts. */
public enum Technique {
  INFILTRATION("infiltration"),
  BLOCK("block");

  private final String word;

  Technique(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
