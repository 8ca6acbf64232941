package quadrille.cli.render;

import java.util.List;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.PlanWriter;

/** The sample course as a plan file, for tests of commands. */
public final class SamplePlan {

  private SamplePlan() {}

  public static String text() {
    return PlanWriter.write(
        SampleCourse.course(List.of()),
        Numbering.ISO3950,
        PlanFileWords.of(PracticeReader.defaults()));
  }
}
