package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Half a quadrant, split at the canine, or a part of one that was cut between two teeth because it
 * was too long for any visit. An area never crosses the midline, because numbing does not.
 *
 * @param ref which area it is
 * @param teeth the teeth and implants that stand in it, from the midline backwards; never empty
 */
public record Area(AreaRef ref, List<Tooth> teeth) {

  public Area {
    teeth = teeth.stream().sorted().toList();
    if (teeth.isEmpty()) {
      throw new IllegalArgumentException("The area (" + ref + ") must hold a tooth.");
    }
    for (Tooth tooth : teeth) {
      if (!ref.holds(tooth)) {
        throw new IllegalArgumentException("Tooth " + tooth + " is not in the area (" + ref + ").");
      }
    }
  }

  public Quadrant quadrant() {
    return ref.quadrant();
  }

  /** Whether it holds premolars and molars rather than canine and incisors. */
  public boolean posterior() {
    return ref.half() == Half.POSTERIOR;
  }

  /**
   * The areas of a chart in which at least one tooth or implant stands, UR to LR, posterior first.
   */
  public static List<Area> of(Chart chart) {
    List<Area> areas = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (Half half : Half.values()) {
        AreaRef whole = AreaRef.whole(quadrant, half);
        List<Tooth> teeth =
            chart.worked().stream().map(ToothChart::tooth).filter(whole::holds).toList();
        if (!teeth.isEmpty()) {
          areas.add(new Area(whole, teeth));
        }
      }
    }
    return List.copyOf(areas);
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

  private static Area part(List<Tooth> teeth) {
    return new Area(AreaRef.part(teeth), teeth);
  }

  /**
   * The runs of neighbours in this area that other areas leave uncovered, as areas of their own.
   *
   * @param others areas that may hold teeth of this one
   */
  public List<Area> uncovered(List<Area> others) {
    List<List<Tooth>> runs = new ArrayList<>();
    boolean open = false;
    for (Tooth tooth : teeth) {
      boolean free = others.stream().noneMatch(other -> other.teeth().contains(tooth));
      if (free && !open) {
        runs.add(new ArrayList<>());
      }
      if (free) {
        runs.get(runs.size() - 1).add(tooth);
      }
      open = free;
    }
    return runs.stream().map(run -> run.equals(teeth) ? this : part(run)).toList();
  }

  /** By quadrant, posterior first, then from the midline. */
  public static Comparator<Area> order() {
    return Comparator.comparing(Area::quadrant)
        .thenComparing(area -> area.ref().half())
        .thenComparing(area -> area.teeth().get(0));
  }
}
