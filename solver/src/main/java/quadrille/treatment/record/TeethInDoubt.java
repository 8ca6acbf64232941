package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;

/**
 * Teeth that may be other teeth than were meant. Logs of the first format took ISO 3950 codes
 * whatever the chart: somebody who typed 14 at a chart numbered 1 to 32 meant the upper left first
 * molar, and the log holds the upper right first premolar. Nobody can tell afterwards from the log,
 * so a person says of each such tooth that it is right ({@link Event.TeethConfirmed}), or records a
 * correction; until then the course is not planned again.
 */
public final class TeethInDoubt {

  private TeethInDoubt() {}

  /**
   * What an entry says of teeth.
   *
   * @param entry number of the entry that says it
   * @param visit that it is about
   * @param teeth those that nobody has confirmed, sorted; at least one
   */
  public record Statement(int entry, int visit, List<Tooth> teeth, Said said) {
    public Statement {
      teeth = teeth.stream().distinct().sorted().toList();
    }
  }

  /** What is said. */
  public sealed interface Said {}

  /** Something was found. */
  public record Found(Observation finding) implements Said {}

  /** A step was not wholly done, or was done before its visit. */
  public record Excepted(StepDone step) implements Said {}

  /** An injection was given at a tooth where none was planned. */
  public record Injected(Given given) implements Said {}

  /**
   * Every statement of a log, corrections seen, with a tooth that nobody has confirmed; in the
   * order of the records. None where the chart has ISO 3950 codes.
   */
  public static List<Statement> of(CourseLog log) {
    if (log.numbering() == Numbering.ISO3950) {
      return List.of();
    }
    Map<Integer, LogEntry> latest = new TreeMap<>();
    log.entries().forEach(entry -> latest.put(log.origin(entry.number()), entry));
    List<Statement> statements = new ArrayList<>();
    for (CourseLog.Recorded one : log.recorded()) {
      LogEntry entry = latest.get(one.entry());
      if (entry != null && entry.numbering() == null) {
        Set<Tooth> confirmed = confirmed(log, entry.number());
        for (Said said : said(one)) {
          List<Tooth> open =
              teeth(said).stream().filter(tooth -> !confirmed.contains(tooth)).toList();
          if (!open.isEmpty()) {
            statements.add(new Statement(entry.number(), one.done().visit(), open, said));
          }
        }
      }
    }
    return List.copyOf(statements);
  }

  private static Set<Tooth> confirmed(CourseLog log, int after) {
    Set<Tooth> confirmed = new HashSet<>();
    for (LogEntry entry : log.entries().subList(after, log.entries().size())) {
      if (entry.event() instanceof Event.TeethConfirmed said) {
        confirmed.addAll(said.teeth());
      }
    }
    return confirmed;
  }

  private static List<Said> said(CourseLog.Recorded one) {
    List<Said> said = new ArrayList<>();
    @Nullable Visit planned = one.planned();
    for (StepDone step : one.done().steps()) {
      boolean own =
          planned != null
              && planned.steps().stream()
                  .anyMatch(
                      entry ->
                          entry.area().equals(step.area())
                              && entry.pass() == step.pass()
                              && entry.aspect() == step.aspect()
                              && entry.teeth().containsAll(step.teeth()));
      if (!step.whole() || !own) {
        said.add(new Excepted(step));
      }
    }
    List<@Nullable Tooth> injected =
        planned == null
            ? List.of()
            : planned.injections().stream().map(GivenInjection::tooth).toList();
    for (Given given : one.done().injections()) {
      if (given.tooth() != null && !injected.contains(given.tooth())) {
        said.add(new Injected(given));
      }
    }
    one.done().findings().forEach(finding -> said.add(new Found(finding)));
    return said;
  }

  private static List<Tooth> teeth(Said said) {
    if (said instanceof Excepted excepted) {
      return excepted.step().teeth();
    }
    @Nullable Tooth tooth =
        said instanceof Injected injected
            ? injected.given().tooth()
            : ((Found) said).finding().tooth();
    return tooth == null ? List.of() : List.of(tooth);
  }
}
