package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Agents;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.DoneWork;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/**
 * Makes the work list, and cuts areas between two teeth that alone would not fit the longest visit,
 * or hold more teeth than may come before the first look at the bleeding, until each fits or is a
 * single tooth; and once more where numbness does not last for all of an area, but for each part.
 */
public final class AreaCutter {
  private final Chart chart;
  private final Practice practice;
  private final Stager stager;
  private final DoneWork done;

  AreaCutter(Chart chart, Practice practice, Stager stager) {
    this(chart, practice, stager, DoneWork.NONE);
  }

  /**
   * @param done work that need not fit any more
   */
  public AreaCutter(Chart chart, Practice practice, Stager stager, DoneWork done) {
    this.done = done;
    this.chart = chart;
    this.practice = practice;
    this.stager = stager;
  }

  WorkList work() throws UnworkableException {
    return work(Area.of(chart));
  }

  /** Starts from areas that are cut already. */
  public WorkList work(List<Area> from) throws UnworkableException {
    List<Area> areas = from;
    while (true) {
      WorkList work = WorkPlanner.plan(chart, practice, areas, done);
      List<Area> cut = new ArrayList<>();
      for (Area area : areas) {
        List<Area> parts =
            area.teeth().size() > 1
                ? area.cutAfter(cuts(work, area).get(0).after())
                : List.of(area);
        if (!opens(work, area) || !fits(work, area) || lastsInPartsOnly(work, area, parts)) {
          cut.addAll(parts);
        } else {
          cut.add(area);
        }
      }
      if (cut.size() == areas.size()) {
        return work;
      }
      areas = List.copyOf(cut);
    }
  }

  /** Whether a visit can begin with the whole area. */
  private boolean opens(WorkList work, Area area) {
    Integer most = PatientRules.of(practice, chart.patient()).teethBeforeLook();
    return most == null
        || stepsOf(work, area).stream().flatMap(step -> step.teeth().stream()).distinct().count()
            <= most;
  }

  private boolean fits(WorkList work, Area area) {
    List<Step> steps = stepsOf(work, area);
    if (steps.isEmpty()) {
      return true;
    }
    StagingCase alone =
        new StagingCase(chart.patient().withWishes(List.of()), practice, steps, Map.of(), 1);
    return stager.fitsOneVisit(alone);
  }

  /** Whether numbness does not last, or a dose suffice, for all of an area but for each part. */
  private boolean lastsInPartsOnly(WorkList work, Area area, List<Area> parts)
      throws UnworkableException {
    if (parts.size() == 1 || serves(stepsOf(work, area))) {
      return false;
    }
    List<Area> areas = new ArrayList<>(work.areas());
    areas.remove(area);
    areas.addAll(parts);
    areas.sort(Area.order());
    WorkList apart = again(areas);
    return parts.stream().allMatch(part -> serves(stepsOf(apart, part)));
  }

  private boolean serves(List<Step> steps) {
    return Agents.allowed(practice, chart.patient()).isEmpty()
        || DeferredWork.unserved(steps, practice, chart.patient()) == null;
  }

  private static List<Step> stepsOf(WorkList work, Area area) {
    return work.steps().stream().filter(step -> step.area().equals(area)).toList();
  }

  /** A work list made anew of other areas. */
  WorkList again(List<Area> areas) throws UnworkableException {
    return WorkPlanner.plan(chart, practice, areas, done);
  }

  /**
   * By area that has work, all areas with that one cut between two teeth, so that its parts may lie
   * in different visits, in every way that leaves calculus bridges whole; the area with most work
   * first, and the way that parts it in halves.
   */
  Map<Area, List<List<Area>>> cutOnce(WorkList work) {
    List<Area> byWork = new ArrayList<>(work.areas());
    byWork.removeIf(area -> stepsOf(work, area).isEmpty());
    byWork.sort(
        Comparator.comparingInt(
            area -> -stepsOf(work, area).stream().mapToInt(Step::seconds).sum()));
    Map<Area, List<List<Area>>> cut = new LinkedHashMap<>();
    for (Area area : byWork) {
      List<List<Area>> ways = new ArrayList<>();
      for (Cut way : cuts(work, area)) {
        List<Area> areas = new ArrayList<>();
        work.areas()
            .forEach(
                one -> areas.addAll(one.equals(area) ? one.cutAfter(way.after()) : List.of(one)));
        if (!way.throughBridge()) {
          ways.add(areas);
        }
      }
      cut.put(area, ways);
    }
    return cut;
  }

  /**
   * A cut between two teeth of an area.
   *
   * @param after how many teeth from the midline
   * @param throughBridge whether a calculus bridge joins the two
   */
  private record Cut(int after, boolean throughBridge) {}

  private Cut cut(Area area, int after) {
    Tooth one = area.teeth().get(after - 1);
    Tooth other = area.teeth().get(after);
    return new Cut(after, other.position() - one.position() == 1 && chart.bridged(one, other));
  }

  /**
   * Where an area can be cut: not through a calculus bridge if it can be helped, which breaks off
   * whole; then where it parts the work in halves first.
   */
  private List<Cut> cuts(WorkList work, Area area) {
    double[] seconds = new double[area.teeth().size()];
    for (Step step : stepsOf(work, area)) {
      step.teeth()
          .forEach(
              tooth ->
                  seconds[area.teeth().indexOf(tooth)] +=
                      (double) step.seconds() / step.teeth().size());
    }
    double all = Arrays.stream(seconds).sum();
    // Whole milliseconds, so that equal halves are equal.
    return IntStream.range(1, seconds.length)
        .mapToObj(after -> cut(area, after))
        .sorted(
            Comparator.comparing(Cut::throughBridge)
                .thenComparingLong(
                    cut ->
                        Math.round(
                            1000
                                * Math.abs(
                                    all / 2 - Arrays.stream(seconds, 0, cut.after()).sum()))))
        .toList();
  }
}
