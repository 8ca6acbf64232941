package quadrille.benchmark;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Course;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

/**
 * What each effort came to, kept in a file line by line, so that a run that was cut short goes on
 * where it ended.
 */
final class EffortRuns {
  private static final String HEAD =
      "case,effort,steps,cost,lower bound,seconds,processor seconds\n";

  /**
   * One search.
   *
   * @param cost in seconds of chair time, or -1 where no course was found
   * @param seconds by the clock
   * @param processorSeconds of all threads of the virtual machine, its compiler's included
   */
  record Run(
      String name,
      Effort effort,
      int steps,
      long cost,
      long lowerBound,
      double seconds,
      double processorSeconds) {

    boolean found() {
      return cost >= 0;
    }

    private String line() {
      return String.format(
          Locale.ROOT,
          "%s,%s,%d,%d,%d,%.2f,%.2f%n",
          name,
          effort.word(),
          steps,
          cost,
          lowerBound,
          seconds,
          processorSeconds);
    }

    private static Run of(String line) {
      String[] cells = line.split(",", -1);
      return new Run(
          cells[0],
          Effort.valueOf(cells[1].toUpperCase(Locale.ROOT)),
          Integer.parseInt(cells[2]),
          Long.parseLong(cells[3]),
          Long.parseLong(cells[4]),
          Double.parseDouble(cells[5]),
          Double.parseDouble(cells[6]));
    }
  }

  private final Path file;
  private final Map<String, Run> runs = new TreeMap<>();

  /**
   * @param file made if it is not there
   */
  EffortRuns(Path file) throws IOException {
    this.file = file;
    if (!Files.exists(file)) {
      Files.writeString(file, HEAD);
    }
    Files.readAllLines(file).stream().skip(1).map(Run::of).forEach(this::keep);
  }

  /** How many there are. */
  int size() {
    return runs.size();
  }

  /** What was found; null where that effort was not made yet. */
  @Nullable Run of(BenchmarkCase one, Effort effort) {
    return runs.get(key(one.name(), effort));
  }

  /** Seeks what has not been sought yet. */
  void seek(List<BenchmarkCase> cases, List<Effort> efforts) throws Exception {
    boolean warm = false;
    for (BenchmarkCase one : cases) {
      for (Effort effort : efforts) {
        if (of(one, effort) == null) {
          if (!warm) {
            // Not to measure the virtual machine's warming up.
            sought(one, Effort.NORMAL);
            warm = true;
          }
          Run run = sought(one, effort);
          Files.writeString(file, run.line(), StandardOpenOption.APPEND);
          // As it will be read, so that a table from the file is the same one.
          keep(Run.of(run.line().strip()));
        }
      }
    }
  }

  private void keep(Run run) {
    runs.put(key(run.name(), run.effort()), run);
  }

  private static String key(String name, Effort effort) {
    return name + " " + effort.word();
  }

  private static Run sought(BenchmarkCase one, Effort effort) throws Exception {
    long processor = processorNanos();
    long clock = System.nanoTime();
    @Nullable Course course =
        new CoursePlanner(effort, 1)
                    .planOnly(one.chart(), one.practice(), VisitRange.exactly(one.visits()), false)
                instanceof Planned planned
            ? planned.course()
            : null;
    double seconds = (System.nanoTime() - clock) / 1e9;
    double processorSeconds = (processorNanos() - processor) / 1e9;
    return new Run(
        one.name(),
        effort,
        course == null ? 0 : course.visits().stream().mapToInt(visit -> visit.steps().size()).sum(),
        course == null ? -1 : course.cost().seconds(),
        course == null ? 0 : course.cost().lowerBoundSeconds(),
        seconds,
        processorSeconds);
  }

  private static long processorNanos() {
    return ManagementFactory.getPlatformMXBean(com.sun.management.OperatingSystemMXBean.class)
        .getProcessCpuTime();
  }
}
