package quadrille.reference;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import quadrille.plan.planning.PreparedMouth;

/**
 * Lets CP-SAT seek each frozen case and writes what it finds. Cases that stand in the file already
 * are left out, so that a run that was cut short goes on where it ended.
 */
public final class ReferenceRun {
  private static final String HEAD =
      """
      # The frozen cases under today's default practice, sought by CP-SAT: OR-Tools 9.14, one worker,
      # %s of its deterministic seconds a case. Made with
      # mvn -o -q -Pbenchmark -pl solver test-compile dependency:build-classpath -Dmdep.outputFile=target/cp
      # java -cp solver/target/test-classes:solver/target/classes:$(cat solver/target/cp) \\
      #   quadrille.reference.ReferenceRun FILE %s
      # Costs in seconds; visits are separated by semicolons, steps in order, by their ids.
      # OPTIMAL: no course of so many visits costs less than the best.
      case,steps,visits,status,best,bound,deterministic seconds,orders,CPU seconds,sets
      """;

  private ReferenceRun() {}

  /**
   * @param args the file, deterministic seconds a case, and, if only some are wanted, names of
   *     cases
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[0]);
    double effort = Double.parseDouble(args[1]);
    List<String> only = List.of(args).subList(2, args.length);
    if (!Files.exists(file)) {
      Files.writeString(file, String.format(Locale.ROOT, HEAD, args[1], args[1]));
    }
    Set<String> done =
        ReferenceCases.rows(Files.readString(file)).stream()
            .map(row -> row.get(0))
            .collect(Collectors.toSet());
    for (ReferenceCases.Frozen frozen : ReferenceCases.today()) {
      if (!done.contains(frozen.name()) && (only.isEmpty() || only.contains(frozen.name()))) {
        Files.writeString(file, line(frozen, effort), StandardOpenOption.APPEND);
      }
    }
  }

  private static String line(ReferenceCases.Frozen frozen, double effort) {
    PreparedMouth mouth = frozen.mouth();
    Problem problem =
        new Problem(
            frozen.chart().patient(),
            frozen.changedPractice(),
            mouth.steps(),
            mouth.burdens(),
            frozen.visits());
    long before = cpuNanos();
    Outcome outcome = new ReferenceModel(problem).solve(effort);
    String orders =
        outcome.visits().stream()
            .map(visit -> visit.stream().map(place -> "" + place).collect(Collectors.joining(" ")))
            .collect(Collectors.joining("; "));
    return String.format(
        Locale.ROOT,
        "%s,%d,%d,%s,%d,%d,%.1f,%s,%.1f,%d%n",
        frozen.name(),
        problem.steps().size(),
        frozen.visits(),
        outcome.status(),
        outcome.best(),
        outcome.bound(),
        outcome.effort(),
        orders,
        (cpuNanos() - before) / 1e9,
        outcome.sets());
  }

  private static long cpuNanos() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }
}
