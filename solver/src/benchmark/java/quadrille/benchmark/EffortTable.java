package quadrille.benchmark;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.benchmark.EffortRuns.Run;
import quadrille.plan.staging.Effort;
import quadrille.reference.ReferenceCases.Stored;

/**
 * What each effort takes and comes to, case by case, beside the exact solver and the lower bound.
 * What is not known, or was not sought, is a dash.
 */
final class EffortTable {
  private static final String UNKNOWN = "-";

  private EffortTable() {}

  static void print(List<BenchmarkCase> cases, EffortRuns runs, PrintStream out) {
    List<Object> head =
        new ArrayList<>(List.of("case", "steps", "visits", "CP-SAT", "its bound", "proven"));
    for (Effort effort : Effort.values()) {
      head.addAll(List.of(effort.word(), ": CP-SAT", "s", "processor s"));
    }
    head.addAll(List.of("our bound", "gap %"));
    Benchmark.row(out, head.toArray());
    Benchmark.row(out, head.stream().map(cell -> "--:").toArray());
    Map<Effort, Sums> sums = new EnumMap<>(Effort.class);
    for (Effort effort : Effort.values()) {
      sums.put(effort, new Sums());
    }
    for (BenchmarkCase one : cases) {
      row(one, runs, sums, out);
    }
    out.println();
    sums.forEach((effort, sum) -> sum.print(effort, out));
  }

  private static void row(
      BenchmarkCase one, EffortRuns runs, Map<Effort, Sums> sums, PrintStream out) {
    Stored reference = one.reference();
    boolean known = reference != null && reference.best() > 0;
    List<Object> cells = new ArrayList<>(List.of(one.name(), UNKNOWN, one.visits()));
    cells.add(known ? reference.best() : UNKNOWN);
    cells.add(reference == null ? UNKNOWN : reference.bound());
    cells.add(reference == null ? UNKNOWN : reference.proven() ? "yes" : "no");
    Object bound = UNKNOWN;
    Object gap = UNKNOWN;
    for (Effort effort : Effort.values()) {
      Run run = runs.of(one, effort);
      if (run == null) {
        cells.addAll(List.of(UNKNOWN, UNKNOWN, UNKNOWN, UNKNOWN));
        continue;
      }
      sums.get(effort).add(run, reference);
      cells.add(run.found() ? run.cost() : "none");
      cells.add(
          known && run.found()
              ? String.format(Locale.ROOT, "%.4f", (double) run.cost() / reference.best())
              : UNKNOWN);
      cells.add(run.seconds());
      cells.add(run.processorSeconds());
      if (run.found()) {
        cells.set(1, run.steps());
        bound = run.lowerBound();
        gap = gap(run);
      }
    }
    cells.addAll(List.of(bound, gap));
    Benchmark.row(out, cells.toArray());
  }

  /** Of cost and lower bound, in per cent of the cost. */
  private static double gap(Run run) {
    return 100.0 * (run.cost() - run.lowerBound()) / run.cost();
  }

  /** One effort over all cases. */
  private static final class Sums {
    private final List<Double> seconds = new ArrayList<>();
    private final List<Double> processorSeconds = new ArrayList<>();
    private final List<Double> gaps = new ArrayList<>();
    private final List<Double> ratios = new ArrayList<>();
    private int sought;
    private int found;
    private int proven;
    private int met;

    void add(Run run, @Nullable Stored reference) {
      sought++;
      seconds.add(run.seconds());
      processorSeconds.add(run.processorSeconds());
      if (run.found()) {
        found++;
        gaps.add(gap(run));
      }
      if (reference != null && reference.best() > 0) {
        // No course where the exact solver has one is as bad as can be.
        ratios.add(run.found() ? (double) run.cost() / reference.best() : Double.POSITIVE_INFINITY);
        proven += reference.proven() ? 1 : 0;
        met += reference.proven() && run.cost() == reference.best() ? 1 : 0;
      }
    }

    void print(Effort effort, PrintStream out) {
      if (sought == 0) {
        return;
      }
      out.printf(
          Locale.ROOT,
          "- %s: a course in %d of %d cases; median %.2f s, %.2f s of processor time; most %.2f s;"
              + " gap to our bound %.2f %% in the median, %.2f %% at most",
          effort.word(),
          found,
          sought,
          Benchmark.median(seconds),
          Benchmark.median(processorSeconds),
          seconds.stream().mapToDouble(Double::doubleValue).max().orElse(0),
          Benchmark.median(gaps),
          gaps.stream().mapToDouble(Double::doubleValue).max().orElse(Double.NaN));
      if (!ratios.isEmpty()) {
        long atOrBelow = ratios.stream().filter(ratio -> ratio <= 1).count();
        double worst = ratios.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        out.printf(
            Locale.ROOT,
            "; at or below CP-SAT in %d of %d (%.0f %%), at worst %+.2f %%; equal to it in %d of"
                + " the %d that it proved",
            atOrBelow,
            ratios.size(),
            100.0 * atOrBelow / ratios.size(),
            100 * (worst - 1),
            met,
            proven);
      }
      out.println(".");
    }
  }
}
