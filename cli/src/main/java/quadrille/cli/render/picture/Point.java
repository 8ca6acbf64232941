package quadrille.cli.render.picture;

/** A place in a picture, x to the right and y downwards, as text with at most three decimals. */
public record Point(String x, String y) {

  static Point of(double x, double y) {
    return new Point(Svg.number(x), Svg.number(y));
  }

  @Override
  public String toString() {
    return x + " " + y;
  }
}
