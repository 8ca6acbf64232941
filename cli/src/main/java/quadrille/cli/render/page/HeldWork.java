package quadrille.cli.render.page;

import java.util.List;
import quadrille.cli.render.HeldAreas;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;

/**
 * Work that a course leaves out for one reason.
 *
 * @param reason a sentence, and what lifts it
 * @param lines an area each
 * @param note what more is said of it; empty for nothing
 */
public record HeldWork(String reason, List<String> lines, String note) {

  static List<HeldWork> of(Course course, Chart chart, Practice practice) {
    return HeldAreas.of(course).stream()
        .map(
            held ->
                new HeldWork(
                    (Words.sentence(PlanFileWords.of(practice).reason(held.reason()))
                            + " "
                            + held.lift())
                        .strip(),
                    held.lines(chart),
                    held.wholeAreas()
                        ? "An area is finished in the visit that begins it, so all of it waits."
                        : ""))
        .toList();
  }
}
