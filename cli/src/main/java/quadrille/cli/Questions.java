package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.Messages;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.recording.Said;

/**
 * Asks for the record of a visit, question by question. In brackets stands what the plan says; a
 * mere Enter takes it. What is wrong is told at once and asked again.
 */
final class Questions {
  private final BufferedReader in;
  private final Streams streams;
  private final CourseLog log;
  private final int corrects;
  private final Numbering numbering;
  private final VisitOptions said = new VisitOptions();
  private final VisitOptions.Injections given = new VisitOptions.Injections();

  Questions(Streams streams, CourseLog log, int corrects) {
    this.in = new BufferedReader(new InputStreamReader(streams.in(), UTF_8));
    this.streams = streams;
    this.log = log;
    this.corrects = corrects;
    this.numbering = log.numbering();
  }

  /**
   * Asks until all is answered.
   *
   * @throws StopException where the answers end too soon, or no visit is to come
   */
  VisitOptions ask() throws StopException {
    CourseState state = CourseState.of(log);
    List<CourseLog.Recorded> recorded = state.recorded();
    Visit visit = visit(state);
    one("Day", "", "--date", text -> said.date = text);
    String last = recorded.isEmpty() ? "" : recorded.get(recorded.size() - 1).done().clinician();
    one("Clinician", last, "--clinician", text -> said.clinician = text);
    one(
        String.format(
            Locale.ROOT,
            "Minutes from set-up to close (planned %.0f)",
            visit.expectedSeconds() / 60.0),
        "",
        "--minutes",
        text -> said.minutes = text);
    for (Map.Entry<String, Integer> work : work(visit).entrySet()) {
      added(
          String.format(
              Locale.ROOT,
              "%s, %.1f min planned: how much was done, 0 to 1",
              work.getKey(),
              work.getValue() / 60.0),
          "1",
          "--part",
          said.parts,
          text -> work.getKey() + "=" + text);
    }
    said.injections = given;
    injections(visit);
    several(
        "Other injection, such as inferior alveolar LR articaine-4-200 1.5",
        "--given",
        given.given);
    given.none = given.given.isEmpty();
    several("Injection that did not take, such as inferior alveolar LR", "--failed", said.failed);
    several(
        "Site probed anew, such as " + example(16) + " facial distal=7 bleeding",
        "--depth",
        said.depths);
    several(
        "Implant at which a sleeve broke, such as " + example(46), "--sleeve-broken", said.sleeves);
    said.interrupted =
        line("Was it stretched or cut short by something beside the work? yes or no", "no")
            .toLowerCase(Locale.ROOT)
            .startsWith("y");
    String note = line("Note", "");
    said.note = note.isEmpty() ? null : note;
    return said;
  }

  private Visit visit(CourseState state) throws StopException {
    if (corrects > 0) {
      for (CourseLog.Recorded one : state.recorded()) {
        if (one.entry() == log.origin(corrects) && one.planned() != null) {
          said.visit = Integer.toString(one.done().visit());
          return one.planned();
        }
      }
    }
    if (state.toCome().isEmpty()) {
      throw StopException.usage("No visit is to come; nothing can be recorded.");
    }
    one(
        "Visit",
        Integer.toString(state.toCome().get(0).number()),
        "--visit",
        text -> said.visit = text);
    return state.toCome().stream()
        .filter(one -> Integer.toString(one.number()).equals(said.visit))
        .findFirst()
        .orElse(state.toCome().get(0));
  }

  private String example(int iso) {
    return numbering.name(Tooth.ofIso(iso));
  }

  private Map<String, Integer> work(Visit visit) {
    Map<String, Integer> work = new LinkedHashMap<>();
    for (Entry.Debride step : visit.steps()) {
      work.merge(
          step.area().name(numbering) + " " + step.pass().word(), step.seconds(), Integer::sum);
    }
    return work;
  }

  private void injections(Visit visit) throws StopException {
    for (GivenInjection one : visit.injections()) {
      String place = one.tooth() == null ? one.quadrant().name() : numbering.name(one.tooth());
      String words = one.injection() + " " + place + " " + one.agent();
      String planned = trimmed(one.ml());
      while (true) {
        String ml = line(words + ": mL given, 0 for none", planned);
        if (ml.equals("0")) {
          break;
        }
        given.given.add(words + " " + ml);
        String wrong = wrong("--given");
        if (wrong == null) {
          break;
        }
        tell(wrong);
        given.given.remove(given.given.size() - 1);
      }
    }
  }

  private static String trimmed(double number) {
    return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
  }

  private void one(String question, String usual, String option, Consumer<@Nullable String> take)
      throws StopException {
    while (true) {
      String answer = line(question, usual);
      take.accept(answer);
      String wrong = answer.isEmpty() ? "An answer is needed." : wrong(option);
      if (wrong == null) {
        return;
      }
      take.accept(null);
      tell(wrong);
    }
  }

  private void added(
      String question,
      String usual,
      String option,
      List<String> answers,
      UnaryOperator<String> written)
      throws StopException {
    while (true) {
      answers.add(written.apply(line(question, usual)));
      String wrong = wrong(option);
      if (wrong == null) {
        return;
      }
      tell(wrong);
      answers.remove(answers.size() - 1);
    }
  }

  private void several(String question, String option, List<String> answers) throws StopException {
    while (true) {
      String answer = line(question + " (Enter: none, or no more)", "");
      if (answer.isEmpty()) {
        return;
      }
      answers.add(answer);
      String wrong = wrong(option);
      if (wrong != null) {
        tell(wrong);
        answers.remove(answers.size() - 1);
      }
    }
  }

  /** What the reader of records has against the answers to one question; null where nothing. */
  private @Nullable String wrong(String option) {
    try {
      new Said.InAnswers(said::tree).read(log, corrects);
    } catch (InvalidDocumentException invalid) {
      List<String> own = new ArrayList<>();
      for (Fault fault : invalid.faults()) {
        if (fault.place().equals(option)) {
          own.add("Found " + fault.found() + "; allowed: " + fault.allowed());
        }
      }
      return own.isEmpty() ? null : String.join("\n", own);
    }
    return null;
  }

  private void tell(String message) {
    message.lines().map(Messages::clean).forEach(streams.err()::println);
  }

  private String line(String question, String usual) throws StopException {
    streams.err().print(question + (usual.isEmpty() ? "" : " [" + usual + "]") + ": ");
    streams.err().flush();
    try {
      String line = in.readLine();
      if (line == null) {
        streams.err().println();
        throw StopException.usage("The answers ended too soon; nothing was written.");
      }
      return line.isBlank() ? usual : line.strip();
    } catch (IOException e) {
      throw StopException.file("standard input: cannot be read: " + e.getMessage());
    }
  }
}
