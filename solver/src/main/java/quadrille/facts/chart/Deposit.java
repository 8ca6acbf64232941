package quadrille.facts.chart;

/** Deposit grade of a tooth. */
public enum Deposit {
  NONE("none"),
  LIGHT("light"),
  MODERATE("moderate"),
  HEAVY("heavy");

  private final String word;

  Deposit(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
