package quadrille.facts.practice;

/** The shape of an insert's shank. */
public enum Shank {
  STRAIGHT("straight"),
  DOUBLE_BEND("double-bend"),
  TRIPLE_BEND("triple-bend"),
  RIGHT_CURVED("right-curved"),
  LEFT_CURVED("left-curved");

  private final String word;

  Shank(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
