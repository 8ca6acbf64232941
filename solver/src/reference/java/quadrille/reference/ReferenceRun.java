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
      # The frozen cases, sought by CP-SAT: OR-Tools 9.14, %s s and %s workers a case. Made with
      # mvn -o -q -Pbenchmark -pl solver test-compile dependency:build-classpath -Dmdep.outputFile=target/cp
      # java -cp solver/target/test-classes:solver/target/classes:$(cat solver/target/cp) \\
      #   quadrille.reference.ReferenceRun FILE %s %s
      # Costs in seconds; visits are separated by semicolons, steps in order, by their ids.
      # Twice the wall seconds of CPU says that the machine did nothing else.
      case,steps,visits,status,best,bound,wall seconds,orders,CPU seconds
      """;

  private ReferenceRun() {}

  /**
   * @param args the file, seconds a case, workers, and, if only some are wanted, names of cases
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[0]);
    double seconds = Double.parseDouble(args[1]);
    int workers = Integer.parseInt(args[2]);
    List<String> only = List.of(args).subList(3, args.length);
    if (!Files.exists(file)) {
      Files.writeString(file, String.format(Locale.ROOT, HEAD, args[1], args[2], args[1], args[2]));
    }
    Set<String> done =
        ReferenceCases.rows(Files.readString(file)).stream()
            .map(row -> row.get(0))
            .collect(Collectors.toSet());
    for (ReferenceCases.Frozen frozen : ReferenceCases.all()) {
      if (!done.contains(frozen.name()) && (only.isEmpty() || only.contains(frozen.name()))) {
        Files.writeString(file, line(frozen, seconds, workers), StandardOpenOption.APPEND);
      }
    }
  }

  private static String line(ReferenceCases.Frozen frozen, double seconds, int workers) {
    PreparedMouth mouth = frozen.mouth();
    Problem problem =
        new Problem(
            frozen.chart().patient(),
            frozen.changedPractice(),
            mouth.steps(),
            mouth.burdens(),
            frozen.visits());
    long before = cpuNanos();
    Outcome outcome = new ReferenceModel(problem).solve(seconds, workers);
    String orders =
        outcome.visits().stream()
            .map(visit -> visit.stream().map(place -> "" + place).collect(Collectors.joining(" ")))
            .collect(Collectors.joining("; "));
    return String.format(
        Locale.ROOT,
        "%s,%d,%d,%s,%d,%d,%.1f,%s,%.1f%n",
        frozen.name(),
        problem.steps().size(),
        frozen.visits(),
        outcome.status(),
        outcome.best(),
        outcome.bound(),
        outcome.wallSeconds(),
        orders,
        (cpuNanos() - before) / 1e9);
  }

  private static long cpuNanos() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }
}
