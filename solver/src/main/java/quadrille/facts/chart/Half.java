package quadrille.facts.chart;

/** Which half of a quadrant: it is split at the canine, which belongs to the front. */
public enum Half {
  /** Premolars and molars. */
  POSTERIOR("posterior"),
  /** Canine and incisors. */
  ANTERIOR("anterior");

  private final String word;

  Half(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }

  /** The half that a tooth stands in. */
  public static Half of(Tooth tooth) {
    return tooth.posterior() ? POSTERIOR : ANTERIOR;
  }
}
