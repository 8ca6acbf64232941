package quadrille.cli.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;

/**
 * Work that a course leaves out for one reason in the end, area by area.
 *
 * @param reason what is missing
 * @param work in the order of the course
 */
public record HeldAreas(HeldBack.Reason reason, List<HeldBack> work) {

  /** All of a course, a reason each. */
  public static List<HeldAreas> of(Course course) {
    Map<HeldBack.Reason, List<HeldBack>> byReason =
        course.heldBack().stream()
            .collect(
                Collectors.groupingBy(HeldBack::root, LinkedHashMap::new, Collectors.toList()));
    return byReason.entrySet().stream()
        .map(one -> new HeldAreas(one.getKey(), List.copyOf(one.getValue())))
        .toList();
  }

  /** What lifts it; empty where nothing is known. */
  public String lift() {
    return PlanFileWords.lift(reason);
  }

  /** Whether some of it waits only since its area is finished in one visit. */
  public boolean wholeAreas() {
    return work.stream().anyMatch(held -> held.reason() instanceof HeldBack.WholeArea);
  }

  /** A line an area: its passes, and the teeth of each. */
  public List<String> lines(Chart chart) {
    Map<AreaRef, Map<Pass, SortedSet<Tooth>>> areas = new LinkedHashMap<>();
    for (HeldBack held : work) {
      areas
          .computeIfAbsent(held.area(), area -> new TreeMap<>())
          .computeIfAbsent(held.pass(), pass -> new TreeSet<>())
          .addAll(held.teeth());
    }
    List<String> lines = new ArrayList<>();
    areas.forEach(
        (area, passes) ->
            lines.add(
                Words.area(area, chart)
                    + ": "
                    + passes.entrySet().stream()
                        .map(one -> words(one.getKey(), one.getValue(), chart))
                        .collect(Collectors.joining(", "))));
    return lines;
  }

  private static String words(Pass pass, SortedSet<Tooth> teeth, Chart chart) {
    return pass.word().replace('-', ' ') + " (" + Words.teeth(teeth, chart.numbering()) + ")";
  }
}
