package quadrille.work;

/** Which aspect a step sweeps. */
public enum StepAspect {
  FACIAL("facial"),
  LINGUAL("lingual"),
  BOTH("both");

  private final String word;

  StepAspect(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
