package quadrille.staging;

/**
 * How long to seek: counted in steps, so that the same case gives the same course on any machine.
 */
public enum Effort {
  QUICK("quick", 100, 150),
  NORMAL("normal", 150, 600),
  THOROUGH("thorough", 400, 3_000);

  private final String word;
  private final int memory;
  private final int patience;

  Effort(String word, int memory, int patience) {
    this.word = word;
    this.memory = memory;
    this.patience = patience;
  }

  /** As written on the command line. */
  public String word() {
    return word;
  }

  /** How many steps back late acceptance compares with. */
  int memory() {
    return memory;
  }

  /** How many steps without a better course end the search. */
  int patience() {
    return patience;
  }
}
