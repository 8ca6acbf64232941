package quadrille.treatment.record;

/** How far a piece of work has come. */
public enum Extent {
  /** Nothing of it is left. */
  DONE("done"),
  /** Some of it is done. */
  PART_DONE("part done"),
  /** Nothing of it is done. */
  NOT_DONE("not done");

  private final String word;

  Extent(String word) {
    this.word = word;
  }

  /** In words. */
  public String word() {
    return word;
  }
}
