package quadrille.cli.render.picture;

import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;

/**
 * Where a quadrant lies in the mouth map: a quarter of a ring, seen from the front, so that the
 * patient's right is on the left of the picture. Angles count in degrees from the midline
 * backwards, 0 to 90, and each of the eight positions takes an eighth of them.
 */
final class Arch {

  static final int WIDTH = 520;
  static final int HEIGHT = 548;
  static final double OUTER = 208;
  static final double INNER = 104;

  private static final double MIDDLE = WIDTH / 2.0;
  private static final double UPPER = 256;
  private static final double LOWER = HEIGHT - UPPER;
  private static final double STEP = 90 / 8.0;

  private final double side;
  private final double jaw;
  private final double centre;

  Arch(Quadrant quadrant) {
    side = quadrant.side() == Side.RIGHT ? -1 : 1;
    jaw = quadrant.jaw() == Jaw.UPPER ? 1 : -1;
    centre = quadrant.jaw() == Jaw.UPPER ? UPPER : LOWER;
  }

  /** The angle at which a position starts; position 9 is the end of the quadrant. */
  static double start(int position) {
    return (position - 1) * STEP;
  }

  /** The angle of the middle of a position. */
  static double middle(int position) {
    return (position - 0.5) * STEP;
  }

  Point at(double angle, double radius) {
    double radians = Math.toRadians(angle);
    return Point.of(
        MIDDLE + side * radius * Math.sin(radians), centre - jaw * radius * Math.cos(radians));
  }

  /** How far a text is turned to run along the ring without standing on its head. */
  String turn(double angle) {
    return Svg.number(side * jaw * angle);
  }

  /** The outline of a piece of the ring. */
  String piece(double from, double to, double inner, double outer) {
    int there = side * jaw > 0 ? 1 : 0;
    return "M"
        + at(from, outer)
        + arc(outer, there)
        + at(to, outer)
        + "L"
        + at(to, inner)
        + arc(inner, 1 - there)
        + at(from, inner)
        + "Z";
  }

  private static String arc(double radius, int sweep) {
    String length = Svg.number(radius);
    return "A" + length + " " + length + " 0 0 " + sweep + " ";
  }
}
