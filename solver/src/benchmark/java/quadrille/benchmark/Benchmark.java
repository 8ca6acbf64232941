package quadrille.benchmark;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import quadrille.facts.chart.ChartWriter;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.staging.Effort;

/** Prints one of the tables of docs/benchmarks.md, or charts to measure with. */
public final class Benchmark {

  // Swept away by mvn clean; searches that stand in it are not made again.
  private static final Path RUNS = Path.of("target", "efforts.csv");

  private Benchmark() {}

  /**
   * Prints a table.
   *
   * @param args {@code efforts}, and which ones and which cases if not all, such as {@code quick 07
   *     12}; or {@code rules}, and which cases; or {@code passes}, from which mouth to which, the
   *     file that keeps them, and by which rules if not all; or {@code charts}, how many and into
   *     which file
   */
  public static void main(String[] args) throws Exception {
    List<String> words = List.of(args);
    String what = words.isEmpty() ? "efforts" : words.get(0);
    List<String> which = words.subList(Math.min(1, words.size()), words.size());
    switch (what) {
      case "efforts" -> efforts(which);
      case "passes" -> {
        PassesTable table = new PassesTable(Path.of(which.get(2)));
        List<String> rules = which.subList(3, which.size());
        table.seek(
            Integer.parseInt(which.get(0)),
            Integer.parseInt(which.get(1)),
            Stream.of(PassesTable.Rules.values())
                .filter(one -> rules.isEmpty() || rules.contains(one.name()))
                .toList());
        table.print(System.out);
      }
      case "rules" -> RuleTable.print(cases(which), System.out);
      case "charts" -> {
        try (PrintStream out = new PrintStream(which.get(1), UTF_8)) {
          charts(Integer.parseInt(which.get(0)), out);
        }
      }
      default ->
          throw new IllegalArgumentException("Neither efforts, rules, passes nor charts: " + what);
    }
  }

  private static void efforts(List<String> which) throws Exception {
    List<Effort> efforts =
        Stream.of(Effort.values()).filter(effort -> which.contains(effort.word())).toList();
    List<String> names =
        which.stream()
            .filter(word -> efforts.stream().noneMatch(effort -> effort.word().equals(word)))
            .toList();
    List<BenchmarkCase> cases = cases(names);
    EffortRuns runs = new EffortRuns(RUNS);
    if (runs.size() > 0) {
      System.out.printf("%d runs of before, from %s.%n%n", runs.size(), RUNS.toAbsolutePath());
    }
    runs.seek(cases, efforts.isEmpty() ? List.of(Effort.values()) : efforts);
    EffortTable.print(cases, runs, System.out);
  }

  /** All cases, or only those with these names. */
  static List<BenchmarkCase> cases(List<String> names) {
    List<BenchmarkCase> all = BenchmarkCase.all();
    for (String name : names) {
      if (all.stream().noneMatch(one -> one.name().equals(name))) {
        throw new IllegalArgumentException("Neither an effort nor a case: " + name);
      }
    }
    return all.stream().filter(one -> names.isEmpty() || names.contains(one.name())).toList();
  }

  /** Mouths about to be treated, one a line. */
  private static void charts(int number, PrintStream out) {
    List<Profile> profiles = List.of(Profile.TREATMENT, Profile.IMPLANTS, Profile.CAPPED);
    for (int i = 0; i < number; i++) {
      out.println(
          ChartWriter.json(MouthGenerator.mouth(i, profiles.get(i % profiles.size())))
              .replaceAll("\\s*\\R\\s*", " "));
    }
  }

  /** A row of a Markdown table. */
  static void row(PrintStream out, Object... cells) {
    StringBuilder line = new StringBuilder("|");
    for (Object cell : cells) {
      line.append(' ')
          .append(cell instanceof Double number ? String.format(Locale.ROOT, "%.2f", number) : cell)
          .append(" |");
    }
    out.println(line);
    out.flush();
  }

  /** The middle one of several numbers. */
  static double median(List<Double> numbers) {
    List<Double> sorted = numbers.stream().sorted().toList();
    if (sorted.isEmpty()) {
      return Double.NaN;
    }
    int half = sorted.size() / 2;
    return sorted.size() % 2 == 1
        ? sorted.get(half)
        : (sorted.get(half - 1) + sorted.get(half)) / 2;
  }
}
