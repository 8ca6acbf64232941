package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;

/**
 * Both arches as rings, a piece a tooth, to be filled in as a mouth is charted; within them a place
 * for the minutes of each area.
 *
 * @param pieces all 32 positions
 * @param areas all half quadrants
 */
public record EntryRing(List<Piece> pieces, List<Minutes> areas) {

  private static final double OUTER = Arch.OUTER;
  private static final double INNER = 158;
  private static final double MINUTES = 124;
  private static final double NUMBERS = OUTER + 15;

  public EntryRing {
    pieces = List.copyOf(pieces);
    areas = List.copyOf(areas);
  }

  /**
   * A tooth's piece.
   *
   * @param iso its ISO 3950 code
   * @param path the outline
   * @param number where its number stands
   */
  public record Piece(String iso, String path, Point number) {}

  /**
   * Where an area's minutes stand.
   *
   * @param area its name in ISO 3950 codes
   * @param path the outline of the area, within the teeth
   */
  public record Minutes(String area, String path, Point at, String turn) {}

  /** The ring. */
  public static EntryRing of() {
    List<Piece> pieces = new ArrayList<>();
    for (Tooth tooth : Tooth.values()) {
      Arch arch = new Arch(tooth.quadrant());
      pieces.add(
          new Piece(
              tooth.toString(),
              arch.piece(
                  Arch.start(tooth.position()), Arch.start(tooth.position() + 1), INNER, OUTER),
              arch.at(Arch.middle(tooth.position()), NUMBERS)));
    }
    List<Minutes> areas = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (Half half : Half.values()) {
        Arch arch = new Arch(quadrant);
        double from = Arch.start(half == Half.POSTERIOR ? 4 : 1);
        double to = Arch.start(half == Half.POSTERIOR ? 9 : 4);
        double middle = (from + to) / 2;
        areas.add(
            new Minutes(
                AreaRef.whole(quadrant, half).toString(),
                arch.piece(from, to, 96, INNER - 6),
                arch.at(middle, MINUTES),
                arch.turn(middle)));
      }
    }
    return new EntryRing(pieces, areas);
  }
}
