package quadrille.plan.staging;

/**
 * How long to seek: counted in moves, so that the same case gives the same course on any machine.
 */
public enum Effort {
  QUICK("quick", 1, 60, 0),
  NORMAL("normal", 1, 200, 20),
  THOROUGH("thorough", 4, 1_000, 120);

  private final String word;
  private final int starts;
  private final int movesPerBlock;
  private final int carefulMovesPerBlock;

  Effort(String word, int starts, int movesPerBlock, int carefulMovesPerBlock) {
    this.word = word;
    this.starts = starts;
    this.movesPerBlock = movesPerBlock;
    this.carefulMovesPerBlock = carefulMovesPerBlock;
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

  /** Moves around the best course, each visit ordered with more care, for every block and visit. */
  int carefulMovesPerBlock() {
    return carefulMovesPerBlock;
  }
}
