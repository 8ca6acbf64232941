package quadrille.facts.practice;

/** The shape of an insert's shank. */
public enum Shank {
  STRAIGHT("straight"),
  BENT("bent"),
  BENT_FOR_LINE_ANGLES("bent-for-line-angles"),
  CURVED_RIGHT("curved-right"),
  CURVED_LEFT("curved-left"),
  /** A set of hand instruments, of several shapes. */
  SEVERAL("several");

  private final String word;

  Shank(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
