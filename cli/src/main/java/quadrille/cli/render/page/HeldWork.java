package quadrille.cli.render.page;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import quadrille.chart.Chart;
import quadrille.cli.render.Words;
import quadrille.course.Course;
import quadrille.course.HeldBack;

/**
 * Work that a course leaves out for one reason.
 *
 * @param reason a sentence
 */
public record HeldWork(String reason, List<Line> lines) {

  /** What is left out. */
  public record Line(String area, String pass, String aspect, String teeth) {}

  static List<HeldWork> of(Course course, Chart chart) {
    Map<String, List<HeldBack>> byReason =
        course.heldBack().stream()
            .collect(
                Collectors.groupingBy(HeldBack::reason, LinkedHashMap::new, Collectors.toList()));
    return byReason.entrySet().stream()
        .map(
            held ->
                new HeldWork(
                    Words.capital(held.getKey()) + (held.getKey().endsWith(".") ? "" : "."),
                    held.getValue().stream().map(work -> line(work, chart)).toList()))
        .toList();
  }

  private static Line line(HeldBack held, Chart chart) {
    return new Line(
        Words.area(held.area(), chart),
        held.pass(),
        held.aspect(),
        Words.isoTeeth(held.teeth(), chart.numbering()));
  }
}
