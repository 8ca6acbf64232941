package quadrille.reference;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.planning.PreparedMouth;
import quadrille.plan.work.UnworkableException;

/**
 * The frozen cases: charts, each with a number of visits, and what CP-SAT made of them. 32 of them
 * stand here twice: by the rules of 0.1.0, which a practice can still ask for, and by today's.
 */
public final class ReferenceCases {
  private static final String PLACE = "/quadrille/reference/";
  private static final ObjectMapper JSON = new ObjectMapper();

  private ReferenceCases() {}

  /**
   * A frozen case.
   *
   * @param name of its chart, such as {@code 07}
   * @param steps how many steps it has
   * @param practice what the practice file changes, or nothing
   * @param first whether the rules are those of 0.1.0
   */
  public record Frozen(String name, int visits, int steps, String practice, boolean first) {

    public Chart chart() {
      try {
        return ChartReader.json(name + ".json", text("cases/" + name + ".json"));
      } catch (InvalidDocumentException e) {
        throw new IllegalStateException(e);
      }
    }

    public Practice changedPractice() {
      try {
        return first
            ? firstRules(practice)
            : practice.isEmpty()
                ? PracticeReader.defaults()
                : PracticeReader.read(practice, text(practice));
      } catch (InvalidDocumentException e) {
        throw new IllegalStateException(e);
      }
    }

    public PreparedMouth mouth() {
      try {
        return new PreparedMouth(chart(), changedPractice());
      } catch (UnworkableException e) {
        throw new IllegalStateException(e);
      }
    }

    @Override
    public String toString() {
      return "case " + name;
    }
  }

  /**
   * The rules of 0.1.0.
   *
   * @param changes what a practice file changes of them, or nothing
   */
  public static Practice firstRules(String changes) {
    try {
      JsonNode rules = JSON.readTree(text("first-rules.practice.json"));
      if (!changes.isEmpty()) {
        rules = JSON.readerForUpdating(rules).readTree(text(changes));
      }
      return PracticeReader.read("first-rules", rules.toString());
    } catch (InvalidDocumentException | JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  /** By the rules of 0.1.0. */
  public static List<Frozen> firstRules() {
    return index("cases/index.csv", true);
  }

  /** By today's default practice. */
  public static List<Frozen> today() {
    return index("cases/today.csv", false);
  }

  private static List<Frozen> index(String file, boolean first) {
    return rows(text(file)).stream()
        .map(
            row ->
                new Frozen(
                    row.get(0),
                    Integer.parseInt(row.get(1)),
                    Integer.parseInt(row.get(2)),
                    row.get(3),
                    first))
        .toList();
  }

  /**
   * What CP-SAT made of a case.
   *
   * @param status in CP-SAT's words, such as {@code OPTIMAL}
   * @param best seconds, or -1 where it found no course
   * @param bound seconds; no course costs less
   * @param visits for each visit its steps in order; none where it found no course
   */
  public record Stored(
      String name, String status, long best, long bound, List<List<Integer>> visits) {

    /** Whether a course was found and none is cheaper. */
    public boolean proven() {
      return status.equals("OPTIMAL");
    }
  }

  /** What CP-SAT found by the rules of 0.1.0. */
  public static List<Stored> firstResults() {
    return results("results.csv");
  }

  /** What CP-SAT found by today's default practice. */
  public static List<Stored> todaysResults() {
    return results("today.csv");
  }

  private static List<Stored> results(String file) {
    return rows(text(file)).stream().map(ReferenceCases::stored).toList();
  }

  private static Stored stored(List<String> row) {
    List<List<Integer>> visits = new ArrayList<>();
    for (String visit : row.get(7).isEmpty() ? new String[0] : row.get(7).split("; ?", -1)) {
      visits.add(
          visit.isBlank()
              ? List.of()
              : Stream.of(visit.strip().split(" ")).map(Integer::valueOf).toList());
    }
    return new Stored(
        row.get(0), row.get(3), Long.parseLong(row.get(4)), Long.parseLong(row.get(5)), visits);
  }

  /** Rows without the head and without remarks; no field holds a comma. */
  static List<List<String>> rows(String csv) {
    return csv.lines()
        .filter(line -> !line.startsWith("#") && !line.startsWith("case,"))
        .map(line -> List.of(line.split(",", -1)))
        .toList();
  }

  private static String text(String name) {
    try (InputStream in =
        Objects.requireNonNull(ReferenceCases.class.getResourceAsStream(PLACE + name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
