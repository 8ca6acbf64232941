package quadrille.staging;

/**
 * How long to seek: counted in moves, so that the same case gives the same course on any machine.
 */
public enum Effort {
  QUICK("quick", 1, 60),
  NORMAL("normal", 1, 120),
  THOROUGH("thorough", 4, 1_000);

  private final String word;
  private final int starts;
  private final int movesPerBlock;

  Effort(String word, int starts, int movesPerBlock) {
    this.word = word;
    this.starts = starts;
    this.movesPerBlock = movesPerBlock;
  }

  /** As written on the command line. */
  public String word() {
    return word;
  }

  /** From how many different courses the search starts. */
  int starts() {
    return starts;
  }

  /** Moves of each start, for every block and visit of the case. */
  int movesPerBlock() {
    return movesPerBlock;
  }
}
