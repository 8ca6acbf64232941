package quadrille.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Collects findings. */
final class Findings {

  private final Set<Finding> found = new LinkedHashSet<>();

  void course(Rule rule, String message) {
    found.add(new Finding(rule, null, message));
  }

  void visit(Rule rule, int place, String message) {
    found.add(new Finding(rule, place, message));
  }

  /** By rule, then the whole course before its visits, then as found. */
  List<Finding> list() {
    List<Finding> sorted = new ArrayList<>(found);
    sorted.sort(
        Comparator.comparing(Finding::rule).thenComparingInt(finding -> place(finding.visit())));
    return List.copyOf(sorted);
  }

  private static int place(@Nullable Integer visit) {
    return visit == null ? 0 : visit;
  }
}
