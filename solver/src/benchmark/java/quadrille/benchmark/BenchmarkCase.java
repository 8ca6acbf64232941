package quadrille.benchmark;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.reference.ReferenceCases;
import quadrille.reference.ReferenceCases.Stored;

/**
 * A mouth to be staged in so many visits.
 *
 * @param reference what an exact solver made of it; null where that is not known
 */
record BenchmarkCase(
    String name, Chart chart, Practice practice, int visits, @Nullable Stored reference) {

  /** The frozen cases of the reference. */
  static List<BenchmarkCase> all() {
    Map<String, Stored> stored =
        ReferenceCases.firstResults().stream()
            .collect(Collectors.toMap(Stored::name, Function.identity()));
    return ReferenceCases.firstRules().stream()
        .map(
            frozen ->
                new BenchmarkCase(
                    frozen.name(),
                    frozen.chart(),
                    frozen.changedPractice(),
                    frozen.visits(),
                    stored.get(frozen.name())))
        .toList();
  }
}
