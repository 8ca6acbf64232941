package quadrille.planning;

import java.util.List;
import java.util.Map;
import quadrille.audit.Audit;
import quadrille.audit.Finding;
import quadrille.chart.Chart;
import quadrille.practice.Practice;
import quadrille.staging.Effort;
import quadrille.staging.Staged;
import quadrille.staging.Stager;
import quadrille.staging.StagingCase;
import quadrille.work.Step;
import quadrille.work.UnworkableException;
import quadrille.work.WorkList;

/** A mouth made ready for staging just as {@link CoursePlanner} does it, for tests elsewhere. */
public final class PreparedMouth {
  private final Chart chart;
  private final Practice practice;
  private final WorkList work;
  private final Holding holding;

  public PreparedMouth(Chart chart, Practice practice) throws UnworkableException {
    this.chart = chart;
    this.practice = practice;
    this.work = new AreaCutter(chart, practice, new Stager(Effort.QUICK)).work();
    this.holding = Holding.of(work.steps(), practice, chart.patient());
  }

  public List<Step> steps() {
    return holding.planned();
  }

  public Map<String, Double> burdens() {
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
