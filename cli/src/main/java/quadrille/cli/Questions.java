package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.DoneWords;
import quadrille.cli.render.DoubtWords;
import quadrille.cli.render.FindingWords;
import quadrille.cli.render.Messages;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.TeethInDoubt;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.recording.Draft;
import quadrille.treatment.recording.Said;

/**
 * Asks for the record of a visit: the day, who, the minutes, and what was not as planned, picked by
 * its number from a list. In brackets stands what holds where nothing is said; a mere Enter takes
 * it, and {@code <} goes back. What is wrong is told at once and asked again. Before anything is
 * written it shows what the record would say, and what in it is worth a second look.
 */
final class Questions {
  private static final String BACK = "<";
  private static final String HOW = "?";

  private final BufferedReader in;
  private final Streams streams;
  private final CourseLog log;
  private final int corrects;
  private final LocalDate today;
  private final Numbering numbering;
  private final CourseState state;
  private final @Nullable VisitDone old;
  private final boolean anew;
  private final VisitOptions said = new VisitOptions();
  private @Nullable Visit visit;
  private VisitOptions.@Nullable Injections asExcepted;

  /**
   * @param today the day that is offered where none is booked
   */
  Questions(Streams streams, CourseLog log, int corrects, LocalDate today) {
    this.in = new BufferedReader(new InputStreamReader(streams.in(), UTF_8));
    this.streams = streams;
    this.log = log;
    this.corrects = corrects;
    this.today = today;
    this.numbering = log.numbering();
    this.state = CourseState.of(log);
    this.old =
        state.recorded().stream()
            .filter(one -> corrects > 0 && one.entry() == log.origin(corrects))
            .map(CourseLog.Recorded::done)
            .findFirst()
            .orElse(null);
    // Where teeth are in doubt the reader takes the plan for what is not said.
    this.anew =
        old == null
            || TeethInDoubt.of(log).stream()
                .anyMatch(one -> log.origin(one.entry()) == log.origin(corrects));
  }

  /** One question. */
  private interface Question {

    /** Asks; false where somebody goes back. */
    boolean ask() throws StopException;
  }

  /**
   * Asks until all is answered and confirmed.
   *
   * @throws StopException where the answers end too soon, no visit is to come, or it shall not be
   *     written
   */
  VisitOptions ask() throws StopException {
    List<Question> questions =
        List.of(
            this::visit,
            this::day,
            this::clinician,
            this::minutes,
            this::except,
            this::more,
            this::confirm);
    int at = 0;
    while (at < questions.size()) {
      at = Math.max(0, at + (questions.get(at).ask() ? 1 : -1));
    }
    return said;
  }

  private boolean visit() throws StopException {
    VisitDone before = old;
    if (before != null) {
      said.visit = Integer.toString(before.visit());
      visit =
          state.recorded().stream()
              .filter(one -> one.done().equals(before))
              .map(CourseLog.Recorded::planned)
              .findFirst()
              .orElse(null);
      return true;
    }
    if (state.toCome().isEmpty()) {
      throw StopException.usage("No visit is to come; nothing can be recorded.");
    }
    boolean on =
        one(
            "Visit",
            Integer.toString(state.toCome().get(0).number()),
            "--visit",
            text -> said.visit = text);
    visit =
        state.toCome().stream()
            .filter(one -> Integer.toString(one.number()).equals(said.visit))
            .findFirst()
            .orElse(state.toCome().get(0));
    return on;
  }

  private Event.@Nullable Appointment booked() {
    Visit of = visit;
    return of == null ? null : state.booked().get(of.number());
  }

  private boolean day() throws StopException {
    Event.@Nullable Appointment booked = booked();
    LocalDate day =
        old != null
            ? old.date()
            : booked != null && !booked.start().toLocalDate().isAfter(today)
                ? booked.start().toLocalDate()
                : today;
    return one("Day", day.toString(), "--date", text -> said.date = text);
  }

  private boolean clinician() throws StopException {
    Event.@Nullable Appointment booked = booked();
    List<CourseLog.Recorded> recorded = state.recorded();
    @Nullable String last =
        old != null
            ? old.clinician()
            : booked != null && booked.clinician() != null
                ? booked.clinician()
                : recorded.isEmpty() ? "" : recorded.get(recorded.size() - 1).done().clinician();
    return one("Clinician", last == null ? "" : last, "--clinician", text -> said.clinician = text);
  }

  private boolean minutes() throws StopException {
    Visit planned = visit;
    @Nullable Double before = old == null ? null : old.minutes();
    return one(
        "Minutes from set-up to close"
            + (planned == null
                ? ""
                : String.format(Locale.ROOT, " (planned %.0f)", planned.expectedSeconds() / 60.0)),
        before == null ? "" : trimmed(before),
        "--minutes",
        text -> said.minutes = text);
  }

  // ---- what was not as planned

  private boolean except() throws StopException {
    Visit planned = visit;
    if (planned == null) {
      return true;
    }
    List<String> work = work(planned);
    List<Given> injections = injections();
    for (int i = 0; i < work.size(); i++) {
      tell(String.format(Locale.ROOT, "%3d  %s", i + 1, work.get(i)));
    }
    for (int i = 0; i < injections.size(); i++) {
      tell(
          String.format(
              Locale.ROOT,
              "%3d  %s",
              work.size() + i + 1,
              FindingWords.given(injections.get(i), numbering, log.practice())));
    }
    while (true) {
      said.parts.clear();
      said.failed.clear();
      said.injections = null;
      String line =
          line(
              (anew ? "All as planned" : "All as recorded")
                  + " except, such as 1, 2 half, 3 30 % (Enter: nothing)",
              "");
      if (line.equals(BACK)) {
        return false;
      }
      String wrong = excepted(line, work, injections);
      if (wrong == null) {
        wrong = wrong("--part", "--given", "--failed");
      }
      if (wrong == null) {
        return true;
      }
      tell(wrong);
    }
  }

  /** What is wrong with the exceptions; null where nothing is. */
  private @Nullable String excepted(String line, List<String> work, List<Given> injections) {
    Map<Integer, String> given = new LinkedHashMap<>();
    for (int i = 0; i < injections.size(); i++) {
      given.put(i, words(injections.get(i)));
    }
    boolean changed = false;
    for (String item : line.split(",")) {
      String text = item.strip();
      String[] words = text.split(" +", 2);
      int number = number(words[0]);
      String how = words.length > 1 ? words[1].strip() : "";
      int at = number - 1 - work.size();
      if (text.isEmpty()) {
        continue;
      }
      if (number == 0) {
        said.parts.add(VisitOptions.share(text));
      } else if (number <= work.size()) {
        said.parts.add(VisitOptions.share(work.get(number - 1) + " " + how));
      } else if (at < injections.size()) {
        Given one = injections.get(at);
        String[] more = how.split(" +");
        if ("failed".startsWith(more[0]) && !more[0].isEmpty()) {
          said.failed.add(place(one) + (more.length > 1 ? "=" + more[1] : ""));
          continue;
        }
        changed = true;
        if (how.isEmpty() || how.equals("0") || how.equals("no")) {
          given.remove(at);
        } else {
          String ml = more[more.length - 1];
          String agent = more.length > 1 ? agent(more[0]) : one.agent();
          given.put(
              at,
              place(one)
                  + " "
                  + agent
                  + " "
                  + (VisitOptions.isNumber(ml) ? trimmed(Double.parseDouble(ml)) : ml));
        }
      } else {
        return "Found "
            + number
            + "; allowed: a number of the list, 1 to "
            + (work.size() + injections.size());
      }
    }
    if (changed) {
      VisitOptions.Injections all = new VisitOptions.Injections();
      all.given.addAll(given.values());
      all.none = given.isEmpty();
      said.injections = all;
    }
    asExcepted = said.injections;
    return null;
  }

  /**
   * The agent whose parts begin so ({@code art-4-2} for {@code articaine-4-200}); as said, where
   * none or several do.
   */
  private String agent(String beginning) {
    List<String> some =
        log.practice().agents().keySet().stream()
            .filter(name -> begins(name.split("-"), beginning.toLowerCase(Locale.ROOT).split("-")))
            .toList();
    return some.size() == 1 ? some.get(0) : beginning;
  }

  private static boolean begins(String[] parts, String[] said) {
    return said.length <= parts.length
        && IntStream.range(0, said.length).allMatch(i -> parts[i].startsWith(said[i]));
  }

  /** A number of the list; 0 for anything else. */
  private static int number(String text) {
    return text.length() < 4 && !text.isEmpty() && text.chars().allMatch(Character::isDigit)
        ? Integer.parseInt(text)
        : 0;
  }

  /** What holds where nothing is said: as recorded, or else as planned. */
  private List<Given> injections() {
    Visit planned = visit;
    return old != null && !anew
        ? old.injections()
        : planned == null ? List.of() : planned.injections().stream().map(Given::of).toList();
  }

  private String place(Given one) {
    return one.injection()
        + " "
        + (one.tooth() == null ? one.quadrant().name() : numbering.name(one.tooth()));
  }

  /** As {@code --given} has it. */
  private String words(Given one) {
    return place(one) + " " + one.agent() + " " + trimmed(one.ml());
  }

  /** The passes of the areas, in the order of the plan. */
  private List<String> work(Visit planned) {
    return planned.steps().stream()
        .map((Entry.Debride step) -> step.area().name(numbering) + " " + step.pass().word())
        .distinct()
        .toList();
  }

  // ---- what else there was

  private boolean more() throws StopException {
    said.depths.clear();
    said.pus.clear();
    said.sleeves.clear();
    said.interrupted = false;
    said.note = null;
    said.injections = asExcepted;
    while (true) {
      String line = line("Found, or to note (Enter: nothing more; ? shows how)", "");
      if (line.equals(BACK)) {
        return false;
      }
      if (line.isEmpty()) {
        return true;
      }
      if (line.equals(HOW)) {
        more(example(16)).forEach(this::tell);
        continue;
      }
      String[] words = line.split(" +", 2);
      String rest = words.length > 1 ? words[1] : "";
      if (rest.isEmpty() && "interrupted".startsWith(words[0])) {
        said.interrupted = true;
      } else {
        switch (words[0]) {
          case "note" -> said.note = rest;
          case "pus" -> added(said.pus, rest, "--pus");
          case "sleeve" -> added(said.sleeves, rest, "--sleeve-broken");
          case "given" -> given(rest);
          default -> added(said.depths, line, "--depth");
        }
      }
    }
  }

  /** What can be found or noted, by examples. */
  private List<String> more(String tooth) {
    List<String> ways = new ArrayList<>();
    ways.add("  " + tooth + " facial distal=7 bleeding");
    ways.add("  pus " + tooth + " facial");
    state.chart().worked().stream()
        .filter(ToothChart::implant)
        .findFirst()
        .ifPresent(implant -> ways.add("  sleeve " + numbering.name(implant.tooth())));
    ways.add("  given infiltration " + tooth + " " + anAgent() + " 0.6");
    ways.add("  interrupted");
    ways.add("  note anything else");
    return ways;
  }

  private String anAgent() {
    List<Given> planned = injections();
    return planned.isEmpty() ? log.practice().preferredAgents().get(0) : planned.get(0).agent();
  }

  /** An injection that the plan has not, beside those that it has. */
  private void given(String text) {
    VisitOptions.Injections before = said.injections;
    VisitOptions.Injections all = new VisitOptions.Injections();
    if (before != null) {
      all.given.addAll(before.given);
    } else {
      injections().forEach(one -> all.given.add(words(one)));
    }
    all.given.add(text);
    said.injections = all;
    String wrong = wrong("--given");
    if (wrong != null) {
      tell(wrong);
      said.injections = before;
    }
  }

  private void added(List<String> answers, String text, String option) {
    answers.add(text);
    String wrong = wrong(option);
    if (wrong != null) {
      tell(wrong);
      answers.remove(answers.size() - 1);
    }
  }

  // ---- before it is written

  private boolean confirm() throws StopException {
    List<Doubt> doubts;
    try {
      Draft draft = Draft.of(log, new Said.InAnswers(said::tree), corrects, "");
      tell("The record would say:");
      DoneWords.of(draft.done(), numbering, log.practice()).forEach(line -> tell("  " + line));
      doubts = draft.doubts();
      doubts.forEach(
          doubt ->
              tell("Please look again: " + DoubtWords.of(doubt, numbering, log.practice()) + "."));
    } catch (InvalidDocumentException invalid) {
      invalid.faults().forEach(fault -> tell(fault.message()));
      return false;
    }
    while (true) {
      String line =
          line("Write it? yes, no, or " + BACK + " to go back", doubts.isEmpty() ? "yes" : "")
              .toLowerCase(Locale.ROOT);
      if (line.equals(BACK)) {
        return false;
      }
      if (!line.isEmpty() && "yes".startsWith(line)) {
        return true;
      }
      if (!line.isEmpty() && "no".startsWith(line)) {
        throw StopException.usage("Nothing was written.");
      }
    }
  }

  private String example(int iso) {
    return numbering.name(Tooth.ofIso(iso));
  }

  private static String trimmed(double number) {
    return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
  }

  private boolean one(String question, String usual, String option, Consumer<@Nullable String> take)
      throws StopException {
    while (true) {
      String answer = line(question, usual);
      if (answer.equals(BACK)) {
        take.accept(null);
        return false;
      }
      take.accept(answer);
      String wrong =
          answer.isEmpty()
              ? "An answer is needed; Ctrl-C leaves, and nothing is written."
              : wrong(option);
      if (wrong == null) {
        return true;
      }
      take.accept(null);
      tell(wrong);
    }
  }

  /** What the reader of records has against the answers to a question; null where nothing. */
  private @Nullable String wrong(String... options) {
    try {
      new Said.InAnswers(said::tree).read(log, corrects);
    } catch (InvalidDocumentException invalid) {
      List<String> own = new ArrayList<>();
      for (Fault fault : invalid.faults()) {
        if (List.of(options).contains(fault.place())) {
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
