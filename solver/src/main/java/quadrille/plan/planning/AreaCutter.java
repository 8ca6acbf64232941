package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.DoneWork;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/**
 * Makes the work list, and cuts areas that alone would not fit the longest visit between two teeth,
 * until each fits or is a single tooth.
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
        if (area.teeth().size() > 1 && !fits(work, area)) {
          cut.addAll(area.cutAfter(halfOfTheWork(work, area)));
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

  private boolean fits(WorkList work, Area area) {
    List<Step> steps = stepsOf(work, area);
    if (steps.isEmpty()) {
      return true;
    }
    StagingCase alone = new StagingCase(chart.patient(), practice, steps, Map.of(), 1);
    return stager.fitsOneVisit(alone);
  }

  private static List<Step> stepsOf(WorkList work, Area area) {
    return work.steps().stream().filter(step -> step.area().equals(area)).toList();
  }

  /** How many teeth from the midline make up about half of the area's work. */
  private static int halfOfTheWork(WorkList work, Area area) {
    double[] seconds = new double[area.teeth().size()];
    for (Step step : stepsOf(work, area)) {
      step.teeth()
          .forEach(
              tooth ->
                  seconds[area.teeth().indexOf(tooth)] +=
                      (double) step.seconds() / step.teeth().size());
    }
    double all = 0;
    for (double each : seconds) {
      all += each;
    }
    double before = 0;
    int best = 1;
    double bestGap = Double.POSITIVE_INFINITY;
    for (int first = 1; first < seconds.length; first++) {
      before += seconds[first - 1];
      double gap = Math.abs(all / 2 - before);
      if (gap < bestGap - 1e-9) {
        bestGap = gap;
        best = first;
      }
    }
    return best;
  }
}
