package quadrille.facts.practice;

/** Power of the ultrasonic unit; none where the work is done by hand. */
public enum Power {
  NONE("none"),
  LOW("low"),
  MEDIUM("medium"),
  HIGH("high");

  private final String word;

  Power(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
