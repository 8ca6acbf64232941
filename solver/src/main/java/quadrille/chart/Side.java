package quadrille.chart;

/** The patient's own right or left. */
public enum Side {
  RIGHT,
  LEFT;

  /** The other side. */
  public Side opposite() {
    return this == RIGHT ? LEFT : RIGHT;
  }

  /** As written in plans: {@code right} or {@code left}. */
  public String word() {
    return this == RIGHT ? "right" : "left";
  }
}
