package quadrille.facts.chart;

/** A quarter of the mouth, in the order of the ISO 3950 quadrant digits 1 to 4. */
public enum Quadrant {
  UR(Jaw.UPPER, Side.RIGHT),
  UL(Jaw.UPPER, Side.LEFT),
  LL(Jaw.LOWER, Side.LEFT),
  LR(Jaw.LOWER, Side.RIGHT);

  private final Jaw jaw;
  private final Side side;

  Quadrant(Jaw jaw, Side side) {
    this.jaw = jaw;
    this.side = side;
  }

  public Jaw jaw() {
    return jaw;
  }

  public Side side() {
    return side;
  }

  /** The first digit of an ISO 3950 code in this quadrant, 1 to 4. */
  public int isoDigit() {
    return ordinal() + 1;
  }

  /** The quadrant of a jaw and a side. */
  public static Quadrant of(Jaw jaw, Side side) {
    if (jaw == Jaw.UPPER) {
      return side == Side.RIGHT ? UR : UL;
    }
    return side == Side.RIGHT ? LR : LL;
  }
}
