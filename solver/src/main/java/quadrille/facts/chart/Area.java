package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Half a quadrant, split at the canine, or a part of one that was cut between two teeth because it
 * was too long for any visit. An area never crosses the midline, because numbing does not.
 *
 * @param name such as {@code UR posterior}, or {@code UR posterior 18-17} where cut (ISO 3950
 *     codes)
 * @param posterior whether it holds premolars and molars rather than canine and incisors
 * @param teeth the teeth and implants that stand in it, from the midline backwards; never empty
 */
public record Area(String name, Quadrant quadrant, boolean posterior, List<Tooth> teeth) {

  public Area {
    teeth = teeth.stream().sorted().toList();
    if (teeth.isEmpty()) {
      throw new IllegalArgumentException("The area (" + name + ") must hold a tooth.");
    }
    for (Tooth tooth : teeth) {
      if (tooth.quadrant() != quadrant || tooth.posterior() != posterior) {
        throw new IllegalArgumentException(
            "Tooth " + tooth + " is not in the area (" + name + ").");
      }
    }
  }

  /**
   * The areas of a chart in which at least one tooth or implant stands, UR to LR, posterior first.
   */
  public static List<Area> of(Chart chart) {
    List<Area> areas = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (boolean posterior : new boolean[] {true, false}) {
        List<Tooth> teeth =
            chart.worked().stream()
                .map(ToothChart::tooth)
                .filter(t -> t.quadrant() == quadrant && t.posterior() == posterior)
                .toList();
        if (!teeth.isEmpty()) {
          areas.add(new Area(wholeName(quadrant, posterior), quadrant, posterior, teeth));
        }
      }
    }
    return List.copyOf(areas);
  }

  /** The name of the half quadrant. */
  public static String wholeName(Quadrant quadrant, boolean posterior) {
    return quadrant + (posterior ? " posterior" : " anterior");
  }

  /**
   * Cuts the area between two teeth.
   *
   * @param first how many teeth, counted from the midline, go into the first part; 1 to the number
   *     of teeth less one
   */
  public List<Area> cutAfter(int first) {
    return List.of(part(teeth.subList(0, first)), part(teeth.subList(first, teeth.size())));
  }

  private Area part(List<Tooth> some) {
    Tooth front = some.get(0);
    Tooth back = some.get(some.size() - 1);
    String range = front.equals(back) ? front.toString() : back + "-" + front;
    return new Area(wholeName(quadrant, posterior) + " " + range, quadrant, posterior, some);
  }

  /** By quadrant, posterior first, then from the midline. */
  public static Comparator<Area> order() {
    return Comparator.comparing(Area::quadrant)
        .thenComparing(Area::posterior, Comparator.reverseOrder())
        .thenComparing(area -> area.teeth().get(0));
  }
}
