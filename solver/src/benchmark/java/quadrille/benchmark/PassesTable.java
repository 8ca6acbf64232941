package quadrille.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.PassesTogether;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.course.Course;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PreparedMouth;
import quadrille.plan.planning.Progress;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.reference.ReferenceCases;
import quadrille.seeking.SearchStop;

/**
 * What the rules of a careful clinician cost over generated mouths, beside the rules of 0.1.0.
 * Plans are kept in a file line by line, so that a run that was cut short goes on where it ended.
 */
final class PassesTable {
  private static final int MOST_SECONDS = 10;

  /** By which rules a mouth is planned, and with what effort where that is searched. */
  enum Rules {
    FIRST("the rules of 0.1.0", Effort.QUICK),
    APART("today's, the passes of an area anywhere", Effort.NORMAL),
    TODAY("today's", Effort.NORMAL);

    private final String words;
    private final Effort effort;

    Rules(String words, Effort effort) {
      this.words = words;
      this.effort = effort;
    }

    Practice practice() {
      Practice today = PracticeReader.defaults();
      return switch (this) {
        case FIRST -> ReferenceCases.firstRules("");
        case APART ->
            today.withAppointments(today.appointments().withPassesTogether(PassesTogether.FREE));
        case TODAY -> today;
      };
    }
  }

  /** What was counted of a plan; 0 visits where nothing is due, -1 where there is none. */
  record Row(int mouth, Rules rules, List<Long> numbers) {
    private static final String HEAD =
        "mouth,rules,visits,chair seconds,injections,cartridges,half done,returns,"
            + "short injections,needless,cost,lower bound,proven best,cut short,processor ms\n";

    static Row of(String line) {
      List<String> cells = List.of(line.split(",", -1));
      return new Row(
          Integer.parseInt(cells.get(0)),
          Rules.valueOf(cells.get(1)),
          cells.stream().skip(2).map(Long::valueOf).toList());
    }

    String line() {
      StringBuilder line = new StringBuilder().append(mouth).append(',').append(rules);
      numbers.forEach(number -> line.append(',').append(number));
      return line.append('\n').toString();
    }

    private long number(int place) {
      return numbers.get(place);
    }

    long visits() {
      return number(0);
    }

    long chairSeconds() {
      return number(1);
    }

    boolean proven() {
      return number(10) == 1;
    }

    double gapPercent() {
      return 100.0 * (number(8) - number(9)) / Math.max(1, number(8));
    }
  }

  private final Path file;
  private final Map<Integer, Map<Rules, Row>> rows = new TreeMap<>();

  /**
   * @param file made if it is not there
   */
  PassesTable(Path file) throws IOException {
    this.file = file;
    if (!Files.exists(file)) {
      Files.writeString(file, Row.HEAD);
    }
    Files.readAllLines(file).stream()
        .filter(line -> !line.startsWith("mouth"))
        .map(Row::of)
        .forEach(this::keep);
  }

  private void keep(Row row) {
    rows.computeIfAbsent(row.mouth(), mouth -> new EnumMap<>(Rules.class)).put(row.rules(), row);
  }

  /** A mouth of every kind in turn, the hostile ones last of each round. */
  static Chart mouth(int i) {
    Profile[] profiles = Profile.values();
    return MouthGenerator.mouth(i, profiles[i % profiles.length]);
  }

  /** Plans the mouths that have not been planned yet by some rules. */
  void seek(int from, int to, List<Rules> wanted) throws Exception {
    for (Rules rules : wanted) {
      for (int i = from; i < to; i++) {
        if (!rows.getOrDefault(i, Map.of()).containsKey(rules)) {
          Row row = new Row(i, rules, planned(mouth(i), rules));
          Files.writeString(file, row.line(), StandardOpenOption.APPEND);
          keep(row);
        }
      }
    }
  }

  private static List<Long> planned(Chart chart, Rules rules) throws UnworkableException {
    Practice practice = rules.practice();
    long start = processorNanos();
    @Nullable Course course = course(chart, practice, rules.effort);
    long ms = (processorNanos() - start) / 1_000_000;
    if (course == null || course.visits().isEmpty()) {
      return Stream.of(course == null ? -1 : 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, ms)
          .map(Number::longValue)
          .toList();
    }
    CourseCounts counts = new CourseCounts(new PreparedMouth(chart, practice), course);
    return Stream.<Number>of(
            course.visits().size(),
            course.chairSeconds(),
            course.injections(),
            course.cartridges(),
            counts.halfDone(),
            counts.returns(),
            counts.shortInjections(),
            counts.needlessInjections(),
            course.cost().seconds(),
            course.cost().lowerBoundSeconds(),
            course.cost().provenBest() ? 1 : 0,
            course.cutShort() ? 1 : 0,
            ms)
        .map(Number::longValue)
        .toList();
  }

  private static long processorNanos() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static @Nullable Course course(Chart chart, Practice practice, Effort effort) {
    ScheduledExecutorService clock = Executors.newSingleThreadScheduledExecutor();
    try {
      SearchStop stop = new SearchStop();
      long planner = Thread.currentThread().getId();
      long most = processorNanos() + TimeUnit.SECONDS.toNanos(MOST_SECONDS);
      var unused =
          clock.scheduleAtFixedRate(
              () -> {
                if (ManagementFactory.getThreadMXBean().getThreadCpuTime(planner) > most) {
                  stop.ask();
                }
              },
              1,
              1,
              TimeUnit.SECONDS);
      PlanOutcome outcome =
          new CoursePlanner(effort, 1, stop, Progress.UNHEARD)
              .planOnly(chart, practice, VisitRange.USUAL, false);
      return outcome instanceof PlanOutcome.Planned planned ? planned.course() : null;
    } catch (UnworkableException none) {
      return null;
    } finally {
      clock.shutdownNow();
    }
  }

  void print(PrintStream out) {
    List<Map<Rules, Row>> all =
        rows.values().stream()
            .filter(row -> row.containsKey(Rules.FIRST) && row.containsKey(Rules.TODAY))
            .toList();
    List<Map<Rules, Row>> both =
        all.stream()
            .filter(row -> row.values().stream().allMatch(one -> one.visits() > 0))
            .toList();
    out.printf("%d mouths; %d with a course by all rules.%n%n", all.size(), both.size());
    Benchmark.row(
        out,
        "rules",
        "visits",
        "chair hours",
        "injections",
        "cartridges",
        "areas half done",
        "returns to a quadrant a visit",
        "injections for less than 5 minutes",
        "of these needless",
        "cost",
        "processor ms");
    Benchmark.row(out, (Object[]) "---,--:,--:,--:,--:,--:,--:,--:,--:,--:,--:".split(","));
    for (Rules rules : List.of(Rules.FIRST, Rules.TODAY)) {
      List<Row> some = both.stream().map(row -> row.get(rules)).filter(Objects::nonNull).toList();
      double visits = sum(some, Row::visits);
      Benchmark.row(
          out,
          rules.words,
          (long) visits,
          sum(some, Row::chairSeconds) / 3600,
          (long) sum(some, row -> row.number(2)),
          (long) sum(some, row -> row.number(3)),
          (long) sum(some, row -> row.number(4)),
          sum(some, row -> row.number(5)) / visits,
          (long) sum(some, row -> row.number(6)),
          (long) sum(some, row -> row.number(7)),
          (long) sum(some, row -> row.number(8)),
          (long) Benchmark.median(some.stream().map(row -> (double) row.number(12)).toList()));
    }
    List<Row> today =
        all.stream().map(row -> row.get(Rules.TODAY)).filter(row -> row.visits() > 0).toList();
    List<Double> gaps = today.stream().filter(row -> !row.proven()).map(Row::gapPercent).toList();
    out.printf(
        Locale.ROOT,
        "%n- Today's rules: %d courses, %d proven best (%.1f %%); the gap of the rest is %.2f %% in"
            + " the median; %d were cut short after %d s of processor time.%n",
        today.size(),
        today.size() - gaps.size(),
        100.0 * (today.size() - gaps.size()) / Math.max(1, today.size()),
        Benchmark.median(gaps),
        today.stream().filter(row -> row.number(11) == 1).count(),
        MOST_SECONDS);
    compare(both, Rules.APART, out);
    compare(both, Rules.FIRST, out);
    for (Map<Rules, Row> row : all) {
      if (row.values().stream().anyMatch(one -> one.visits() > 0)
          != row.values().stream().allMatch(one -> one.visits() > 0)) {
        out.println("- A course by some rules only: " + names(List.of(row)));
      }
    }
    out.println(
        "- Needless: " + names(both.stream().filter(row -> today(row).number(7) > 0).toList()));
    out.println(
        "- Not proven: " + names(both.stream().filter(row -> !today(row).proven()).toList()));
  }

  private static Row today(Map<Rules, Row> row) {
    return Objects.requireNonNull(row.get(Rules.TODAY));
  }

  private static void compare(List<Map<Rules, Row>> both, Rules before, PrintStream out) {
    List<Map<Rules, Row>> more = new ArrayList<>();
    List<Map<Rules, Row>> fewer = new ArrayList<>();
    List<Double> chair = new ArrayList<>();
    for (Map<Rules, Row> row : both) {
      Row one = row.get(before);
      if (one == null) {
        continue;
      }
      long difference = today(row).visits() - one.visits();
      if (difference == 0) {
        chair.add(100.0 * today(row).chairSeconds() / one.chairSeconds() - 100);
      }
      (difference > 0 ? more : fewer).addAll(difference == 0 ? List.of() : List.of(row));
    }
    chair.sort(null);
    out.printf(
        Locale.ROOT,
        "- Beside %s (%d mouths): a visit more in %d %s, fewer in %d; chair time where visits are"
            + " as many %.1f to %.1f %%, median %.1f %%.%n",
        before.words,
        chair.size() + more.size() + fewer.size(),
        more.size(),
        names(more),
        fewer.size(),
        chair.get(0),
        chair.get(chair.size() - 1),
        Benchmark.median(chair));
  }

  private static List<String> names(List<Map<Rules, Row>> rows) {
    return rows.stream()
        .map(row -> today(row).mouth())
        .map(i -> i + " " + mouth(i).caseName())
        .toList();
  }

  private static double sum(List<Row> rows, ToDoubleFunction<Row> of) {
    return rows.stream().mapToDouble(of).sum();
  }
}
