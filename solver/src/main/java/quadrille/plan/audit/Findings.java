package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;

/** Collects findings. */
final class Findings {

  private final Set<Finding> found = new LinkedHashSet<>();
  private final List<Integer> numbers;
  private final Say say;

  /**
   * @param course its visits are named by their numbers; by their places, where numbers do not rise
   *     and so may name two of them
   * @param numbering the chart's
   */
  Findings(Course course, Numbering numbering) {
    this.say = new Say(numbering);
    List<Integer> own = course.visits().stream().map(Visit::number).toList();
    boolean rising = true;
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < own.size(); i++) {
      places.add(i + 1);
      rising &= i == 0 || own.get(i) > own.get(i - 1);
    }
    this.numbers = rising ? own : places;
  }

  /** How they put things into words. */
  Say say() {
    return say;
  }

  void course(Rule rule, String message) {
    found.add(new Finding(rule, null, message));
  }

  void visit(Rule rule, int place, String message) {
    found.add(new Finding(rule, numbers.get(place - 1), message));
  }

  /** By rule, then the whole course before its visits, then as found. */
  List<Finding> list() {
    List<Finding> sorted = new ArrayList<>(found);
    sorted.sort(
        Comparator.comparing(Finding::rule).thenComparingInt(finding -> number(finding.visit())));
    return List.copyOf(sorted);
  }

  private static int number(@Nullable Integer visit) {
    return visit == null ? 0 : visit;
  }
}
