package quadrille.facts.practice;

/** A pass over an area. The order is the order of work; implant care stands beside it. */
public enum Pass {
  GROSS("gross"),
  FINE("fine"),
  FINISHING("finishing"),
  IMPLANT_CARE("implant-care");

  private final String word;

  Pass(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
