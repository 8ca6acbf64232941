package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;

/**
 * Work that a course leaves out for one reason.
 *
 * @param reason a sentence
 */
public record HeldWork(String reason, List<Line> lines) {

  /** What is left out. */
  public record Line(String area, String pass, String aspect, String teeth) {}

  static List<HeldWork> of(Course course, Chart chart) {
    Map<HeldBack.Reason, List<HeldBack>> byReason =
        course.heldBack().stream()
            .collect(
                Collectors.groupingBy(HeldBack::reason, LinkedHashMap::new, Collectors.toList()));
    return byReason.entrySet().stream()
        .map(held -> new HeldWork(sentence(held.getKey()), lines(held.getValue(), chart)))
        .toList();
  }

  private static String sentence(HeldBack.Reason reason) {
    String why = PlanFileWords.ENGLISH.reason(reason);
    return Words.sentence(why);
  }

  /** Both aspects of the same teeth are one line. */
  private static List<Line> lines(List<HeldBack> held, Chart chart) {
    Map<Line, List<String>> aspects = new LinkedHashMap<>();
    for (HeldBack work : held) {
      Line line =
          new Line(
              Words.area(work.area(), chart),
              work.pass().word(),
              "",
              Words.teeth(work.teeth(), chart.numbering()));
      aspects.computeIfAbsent(line, l -> new ArrayList<>()).add(work.aspect().word());
    }
    return aspects.entrySet().stream()
        .map(
            line ->
                new Line(
                    line.getKey().area(),
                    line.getKey().pass(),
                    String.join(" and ", line.getValue()),
                    line.getKey().teeth()))
        .toList();
  }
}
