package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** What a visit's record would say, to be looked over before it is written. */
public final class DoneWords {

  private DoneWords() {}

  /** One line for each thing that it says; teeth by this numbering. */
  public static List<String> of(VisitDone done, Numbering numbering, Practice practice) {
    List<String> notes = done.note().isEmpty() ? List.of() : List.of(done.note());
    return of(done, notes, numbering, practice);
  }

  /**
   * The same, its note in parts.
   *
   * @param notes what its note is made of
   */
  public static List<String> of(
      VisitDone done, List<String> notes, Numbering numbering, Practice practice) {
    List<String> lines = new ArrayList<>();
    @Nullable Double minutes = done.minutes();
    lines.add(
        done.clinician()
            + ", "
            + done.date()
            + ", "
            + (minutes == null ? "no minutes" : Math.round(minutes) + " min")
            + (done.interrupted() ? ", interrupted" : "")
            + ".");
    String open =
        done.steps().stream()
            .filter(step -> !step.whole())
            .map(
                step ->
                    place(step, numbering)
                        + (step.share() > 0 ? " (" + Words.percent(step.share()) + " done)" : ""))
            .distinct()
            .collect(Collectors.joining("; "));
    lines.add(open.isEmpty() ? "All work done as planned." : "Not done: " + open + ".");
    done.parts()
        .forEach(
            part ->
                lines.add(
                    Words.capital(part.pass().word())
                        + " "
                        + part.area().name(numbering)
                        + ": "
                        + String.format(Locale.ROOT, "%.1f", part.minutes())
                        + " min."));
    done.injections()
        .forEach(
            given ->
                lines.add(
                    "Given: "
                        + Words.injection(given.ref(), numbering, practice)
                        + ", "
                        + Words.number(given.ml(), 2)
                        + " mL "
                        + Words.agent(given.agent(), practice)
                        + "."));
    long failed =
        done.findings().stream().filter(Observation.FailedInjection.class::isInstance).count();
    if (failed > 0) {
      lines.add(Words.count(failed, "injection") + " did not numb.");
    }
    done.findings().stream()
        .filter(found -> !(found instanceof Observation.FailedInjection))
        .forEach(
            found -> lines.add("Found: " + FindingWords.finding(found, numbering, practice) + "."));
    lines.addAll(notes);
    return lines;
  }

  private static String place(StepDone step, Numbering numbering) {
    return step.pass().word() + " " + Words.place(step.area(), step.aspect(), numbering);
  }
}
