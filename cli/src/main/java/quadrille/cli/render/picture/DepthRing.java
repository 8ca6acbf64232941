package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;

/**
 * A mouth as probed: both arches as rings, a piece a tooth with its deepest site in millimetres.
 *
 * @param key tells it from other rings of the page
 * @param title what it shows
 * @param description the same in words
 * @param pieces all 32 positions
 */
public record DepthRing(String key, String title, String description, List<Piece> pieces) {

  private static final double INNER = 138;
  private static final double DEPTHS = (Arch.OUTER + INNER) / 2;
  private static final double NUMBERS = Arch.OUTER + 15;

  public DepthRing {
    pieces = List.copyOf(pieces);
  }

  /**
   * A tooth's piece.
   *
   * @param state {@code open} from 5 mm on, or 4 mm that bleeds; {@code sound} below; {@code
   *     unprobed}; {@code gone} where no tooth is
   * @param depth the deepest site, mm; empty where there is none
   */
  public record Piece(
      String path, String state, String depth, Point at, String tooth, Point name) {}

  /** The ring of a chart. */
  public static DepthRing of(String key, String title, String description, Chart chart) {
    List<Piece> pieces = new ArrayList<>();
    for (Tooth tooth : Tooth.values()) {
      Arch arch = new Arch(tooth.quadrant());
      double middle = Arch.middle(tooth.position());
      List<Site> sites =
          chart.tooth(tooth).filter(ToothChart::worked).map(ToothChart::sites).orElse(List.of());
      int deepest =
          sites.stream()
              .map(Site::depthMm)
              .filter(depth -> depth != null)
              .mapToInt(Integer::intValue)
              .max()
              .orElse(-1);
      pieces.add(
          new Piece(
              arch.piece(
                  Arch.start(tooth.position()),
                  Arch.start(tooth.position() + 1),
                  INNER,
                  Arch.OUTER),
              sites.isEmpty()
                  ? "gone"
                  : deepest < 0
                      ? "unprobed"
                      : sites.stream().anyMatch(Reassessment::residual) ? "open" : "sound",
              deepest < 0 ? "" : Integer.toString(deepest),
              arch.at(middle, DEPTHS),
              chart.numbering().name(tooth),
              arch.at(middle, NUMBERS)));
    }
    return new DepthRing(key, title, description, pieces);
  }
}
