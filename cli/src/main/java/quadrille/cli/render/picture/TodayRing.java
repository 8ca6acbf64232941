package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.Words;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;

/**
 * One visit in a small picture that can be read from the stool: the areas of the day in its colour,
 * the others in outline, and which side is numb.
 *
 * @param right what is said of the patient's right side
 * @param left what is said of the patient's left side
 * @param description what the picture shows, in words
 */
public record TodayRing(
    int visit, List<Piece> pieces, String right, String left, String description) {

  public TodayRing {
    pieces = List.copyOf(pieces);
  }

  /**
   * A piece of a ring.
   *
   * @param today whether it is worked on
   */
  public record Piece(String path, boolean today) {}

  /** The picture of a visit. */
  public static TodayRing of(Visit visit, Chart chart) {
    List<Piece> pieces = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (Half half : Half.values()) {
        pieces.add(piece(AreaRef.whole(quadrant, half), false));
      }
    }
    visit.areas().forEach(area -> pieces.add(piece(area, true)));
    return new TodayRing(
        visit.number(),
        pieces,
        side(visit, Side.RIGHT),
        side(visit, Side.LEFT),
        "Areas of visit "
            + visit.number()
            + ": "
            + String.join(
                ", ", visit.areas().stream().map(area -> Words.area(area, chart)).toList())
            + ". Patient's right: "
            + side(visit, Side.RIGHT)
            + "; left: "
            + side(visit, Side.LEFT)
            + ".");
  }

  private static Piece piece(AreaRef area, boolean today) {
    Tooth front = area.to();
    Tooth back = area.from();
    boolean posterior = area.half() == Half.POSTERIOR;
    int from = front == null ? posterior ? 4 : 1 : front.position();
    int to = back == null ? posterior ? 8 : 3 : back.position();
    return new Piece(
        new Arch(area.quadrant())
            .piece(Arch.start(from), Arch.start(to + 1), Arch.INNER, Arch.OUTER),
        today);
  }

  private static String side(Visit visit, Side side) {
    boolean numb =
        visit.numbSide() == NumbSide.BOTH
            || visit.numbSide() == (side == Side.RIGHT ? NumbSide.RIGHT : NumbSide.LEFT);
    return (side == Side.RIGHT ? "right" : "left") + (numb ? ", numb" : "");
  }
}
