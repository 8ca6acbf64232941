package quadrille.facts.chart;

/** The patient's own right or left. */
public enum Side {
  RIGHT,
  LEFT;

  /** As written in plans: {@code right} or {@code left}. */
  public String word() {
    return this == RIGHT ? "right" : "left";
  }
}
