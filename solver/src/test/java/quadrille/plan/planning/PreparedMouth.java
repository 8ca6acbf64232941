package quadrille.plan.planning;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.work.Burden;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;

/** A mouth made ready for staging just as {@link CoursePlanner} does it, for tests elsewhere. */
public final class PreparedMouth {
  private final Chart chart;
  private final Practice practice;
  private final WorkList work;
  private final DeferredWork holding;

  public PreparedMouth(Chart chart, Practice practice) throws UnworkableException {
    this(chart, practice, new AreaCutter(chart, practice, new Stager(Effort.QUICK)).work());
  }

  private PreparedMouth(Chart chart, Practice practice, WorkList work) {
    this.chart = chart;
    this.practice = practice;
    this.work = work;
    this.holding = DeferredWork.of(work.steps(), practice, chart, chart.patient());
  }

  /** The same mouth, its areas cut as in a course of it. */
  public PreparedMouth cutAs(Course course) throws UnworkableException {
    Set<AreaRef> met = new TreeSet<>();
    course.visits().forEach(visit -> met.addAll(visit.areas()));
    AreaCutter cutter = new AreaCutter(chart, practice, new Stager(Effort.QUICK));
    for (List<List<Area>> ways : cutter.cutOnce(work).values()) {
      for (List<Area> areas : ways) {
        boolean whole = refs(work.areas()).containsAll(met);
        if (!whole && refs(areas).containsAll(met)) {
          return new PreparedMouth(chart, practice, cutter.again(areas));
        }
      }
    }
    return this;
  }

  private static List<AreaRef> refs(List<Area> areas) {
    return areas.stream().map(Area::ref).toList();
  }

  public List<Step> steps() {
    return holding.planned();
  }

  public Map<AreaRef, Double> burdens() {
    return Burden.each(work.areas(), chart, practice.minutes());
  }

  public StagingCase inVisits(int visits) {
    return new StagingCase(chart.patient(), practice, steps(), burdens(), visits, false);
  }

  /** What the second reading finds in a course. */
  public List<Finding> audit(Staged staged) {
    return Audit.audit(
        CoursePlanner.course(chart, practice, work, holding, staged), chart, practice);
  }
}
