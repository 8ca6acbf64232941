package quadrille.benchmark;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.staging.Effort;
import quadrille.reference.ReferenceCases.Stored;

/** That the measurements still run; what they show is in docs/benchmarks.md. */
final class BenchmarkTest {
  private static final String HEAD =
      "case,effort,steps,cost,lower bound,seconds,processor seconds\n";

  @TempDir private Path folder;

  private static BenchmarkCase mild(String name, @Nullable Stored reference) {
    return new BenchmarkCase(
        name, MouthGenerator.mouth(1, Profile.MILD), PracticeReader.defaults(), 1, reference);
  }

  private static Stored stored(String name, String status, long best) {
    return new Stored(name, status, best, best, List.of());
  }

  private String table(List<BenchmarkCase> cases, EffortRuns runs) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    EffortTable.print(cases, runs, new PrintStream(out, true, UTF_8));
    return out.toString(UTF_8);
  }

  @Test
  void anEffortIsSoughtOnceAndKept() throws Exception {
    Path file = folder.resolve("runs.csv");
    List<BenchmarkCase> one = List.of(mild("mild", null));
    EffortRuns runs = new EffortRuns(file);
    runs.seek(one, List.of(Effort.QUICK));
    List<String> kept = Files.readAllLines(file);
    assertEquals(2, kept.size(), kept.toString());
    assertTrue(kept.get(1).startsWith("mild,quick,"), kept.toString());

    EffortRuns again = new EffortRuns(file);
    again.seek(one, List.of(Effort.QUICK));
    assertEquals(kept, Files.readAllLines(file));
    assertEquals(runs.of(one.get(0), Effort.QUICK), again.of(one.get(0), Effort.QUICK));
    assertEquals(table(one, runs), table(one, again));
  }

  /** All figures made up, the sums worked out by hand. */
  @Test
  void theSummaryComparesWithTheReference() throws Exception {
    Path file = folder.resolve("runs.csv");
    Files.writeString(
        file,
        HEAD
            + """
            a,normal,20,1000,900,1.00,2.00
            b,normal,21,990,980,2.00,3.00
            c,normal,22,1010,1000,3.00,4.00
            d,normal,0,-1,0,4.00,5.00
            e,normal,23,500,400,9.00,9.00
            """);
    List<BenchmarkCase> cases =
        List.of(
            mild("a", stored("a", "OPTIMAL", 1000)),
            mild("b", stored("b", "FEASIBLE", 1000)),
            mild("c", stored("c", "OPTIMAL", 1000)),
            mild("e", stored("e", "UNKNOWN", -1)));
    EffortRuns runs = new EffortRuns(file);
    String text = table(cases, runs);
    List<String> rows = text.lines().filter(line -> line.startsWith("|")).toList();
    assertEquals(
        "| a | 20 | 1 | 1000 | 1000 | yes | - | - | - | - | 1000 | 1.0000 | 1.00 | 2.00"
            + " | - | - | - | - | 900 | 10.00 |",
        rows.get(2));
    assertTrue(rows.get(4).contains(" 1010 | 1.0100 |"), rows.get(4));
    assertTrue(rows.get(5).startsWith("| e | 23 | 1 | - | -1 | no |"), rows.get(5));
    long columns = rows.get(0).chars().filter(c -> c == '|').count();
    assertTrue(
        rows.stream().allMatch(row -> row.chars().filter(c -> c == '|').count() == columns), text);
    assertTrue(text.contains("normal: a course in 4 of 4 cases; median 2.50 s, 3.50 s"), text);
    assertTrue(text.contains("5.51 % in the median, 20.00 % at most"), text);
    assertTrue(text.contains("at or below CP-SAT in 2 of 3 (67 %), at worst +1.00 %"), text);
    assertTrue(text.contains("equal to it in 1 of the 2 that it proved"), text);

    List<BenchmarkCase> withD = new ArrayList<>(cases);
    withD.add(mild("d", stored("d", "FEASIBLE", 1000)));
    assertTrue(
        table(withD, runs).contains("at or below CP-SAT in 2 of 4 (50 %), at worst +Infinity %"));
  }

  @Test
  void rulesOfThumbAreHeldToTheAuditAndToAPlan() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    RuleTable.print(List.of(mild("mild", null)), new PrintStream(out, true, UTF_8));
    String text = out.toString(UTF_8);
    assertTrue(text.contains("| mild | a quadrant a visit |"), text);
    assertTrue(text.contains("- a quadrant a visit: breaks a hard rule in "), text);
    assertTrue(text.contains("- half a mouth a visit: breaks a hard rule in "), text);
    assertTrue(text.contains("- quadrants, first fit: breaks a hard rule in "), text);
  }

  @Test
  void casesAreThirtyAtLeastAndAllDifferent() {
    List<BenchmarkCase> all = Benchmark.cases(List.of());
    assertTrue(all.size() >= 30);
    assertEquals(all.size(), all.stream().map(BenchmarkCase::name).distinct().count());
    assertEquals(
        List.of("07"), Benchmark.cases(List.of("07")).stream().map(BenchmarkCase::name).toList());
    assertThrows(IllegalArgumentException.class, () -> Benchmark.cases(List.of("quik")));
  }

  @Test
  void medianIsTheMiddle() {
    assertEquals(2, Benchmark.median(List.of(9.0, 1.0, 2.0)));
    assertEquals(1.5, Benchmark.median(List.of(2.0, 1.0)));
  }
}
