package quadrille.plan.planning;

import java.util.List;
import java.util.Map;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.StagingCase;
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
    this.chart = chart;
    this.practice = practice;
    this.work = new AreaCutter(chart, practice, new Stager(Effort.QUICK)).work();
    this.holding = DeferredWork.of(work.steps(), practice, chart, chart.patient());
  }

  public List<Step> steps() {
    return holding.planned();
  }

  public Map<AreaRef, Double> burdens() {
    return CoursePlanner.burdens(chart, practice, work.areas());
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
