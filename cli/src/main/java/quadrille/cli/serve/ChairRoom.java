package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.DoubtWords;
import quadrille.cli.render.FrameWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.cli.serve.PracticeFolder.Log;
import quadrille.cli.serve.PracticeFolder.Text;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.recording.Draft;
import quadrille.treatment.recording.Recorder;
import quadrille.treatment.recording.RunningVisit;
import quadrille.treatment.recording.RunningVisit.Tick;
import quadrille.treatment.recording.Said;

/**
 * A visit run at the chair: what is ticked is kept at once, survives a reload, and becomes the
 * record once it has been looked over and confirmed.
 */
final class ChairRoom {

  private static final String UNANSWERED =
      "Every stop question is answered before anything else is ticked.";
  private static final String REPLANNED =
      "The course has been planned again since this visit began, so that its ticks may mean other"
          + " work now. They stay in the folder chair, and nothing is recorded from them: record"
          + " the visit by hand (quadrille record).";
  private static final String TICKED_ON =
      "The visit is recorded as it was shown. Meanwhile more was ticked in another window; that"
          + " stays in the folder chair. Correct the record by it (quadrille record --correct).";

  private final PracticeFolder folder;
  private final Clock clock;

  ChairRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  /** A visit to come of a course, and what has been ticked of it so far. */
  private record Chair(Log log, Visit visit, Optional<Text> file, @Nullable RunningVisit running) {

    Expected revision() {
      return file.map(Text::revision).orElse(Expected.NOTHING);
    }

    Said said(RunningVisit running) {
      return running.said(
          visit, numbering(), log.log().practice().gel().cartridgesAspect().value());
    }

    /** What a browser keeps ticks by, until they are sent; the same once the program runs again. */
    String store(RunningVisit running) {
      String what = log.name() + "/" + running.plan() + "/" + running.date();
      return Request.revision(Expected.bytes(what.getBytes(UTF_8)));
    }

    String url() {
      return "/chair/" + log.id() + "/" + visit.number();
    }

    String name() {
      return log.log().planned().course().caseName();
    }

    Numbering numbering() {
      return log.log().numbering();
    }
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    Optional<Log> log = folder.log(request.part(1)::equals);
    Optional<Visit> visit =
        log.flatMap(
            one ->
                CourseState.of(one.log()).toCome().stream()
                    .filter(some -> Integer.toString(some.number()).equals(request.part(2)))
                    .findFirst());
    if (log.isEmpty() || visit.isEmpty() || request.path().size() > 4) {
      return Optional.empty();
    }
    Optional<Text> file = folder.chairText(log.get(), visit.get().number());
    @Nullable RunningVisit running =
        file.isPresent() ? RunningVisit.read("the visit at the chair", file.get().text()) : null;
    if (running != null && !running.isOf(visit.get())) {
      if (!running.ticks().isEmpty()) {
        return Optional.of(Views.message(409, folder.demo(), "Planned again", List.of(REPLANNED)));
      }
      running = null;
    }
    Chair chair = new Chair(log.get(), visit.get(), file, running);
    if (request.part(3).isEmpty() && request.reading()) {
      return Optional.of(show(chair));
    }
    if (request.part(3).equals("begin") && request.is("POST")) {
      return Optional.of(begin(request, chair));
    }
    if (running == null) {
      return Optional.empty();
    }
    return switch (request.method() + " " + request.part(3)) {
      case "POST ticks" -> Optional.of(tick(request, chair, running));
      case "GET end", "HEAD end" -> Optional.of(end(chair, running));
      case "POST record" -> Optional.of(record(request, chair, running));
      default -> Optional.empty();
    };
  }

  private Reply begin(Request request, Chair chair) throws IOException, InvalidDocumentException {
    String clinician = request.form().getOrDefault("clinician", "").strip();
    if (chair.running() != null || clinician.isEmpty() || clinician.length() > 100) {
      return Reply.to(chair.url());
    }
    RunningVisit begun = RunningVisit.begin(chair.visit(), LocalDate.now(clock), clinician);
    // What could not be read again is not begun with.
    RunningVisit.read("who works", begun.text());
    try {
      folder.writeChair(chair.log(), chair.visit().number(), begun.text(), chair.revision());
    } catch (FileAlreadyExistsException | ChangedFileException other) {
      // Somebody has begun it meanwhile, and is shown.
    }
    return Reply.to(chair.url());
  }

  /** Keeps ticks; those that are there already count once. */
  private Reply tick(Request request, Chair chair, RunningVisit running)
      throws IOException, InvalidDocumentException {
    List<Tick> ticks = RunningVisit.ticks("what was ticked", request.text());
    for (Tick tick : ticks) {
      if (running.ticks().stream()
          .anyMatch(one -> one.number() == tick.number() && !one.equals(tick))) {
        return Reply.json(
            412, Map.of("text", "This visit is being run in another window too. Load it again."));
      }
    }
    RunningVisit now = running.with(ticks);
    if (!now.whole()) {
      return Reply.json(412, Map.of("text", "What was ticked before is missing. Load it again."));
    }
    if (!now.heedsStops(chair.visit())) {
      return Reply.json(412, Map.of("text", UNANSWERED));
    }
    try {
      folder.writeChair(chair.log(), chair.visit().number(), now.text(), chair.revision());
    } catch (ChangedFileException other) {
      // Two at once: the browser sends what is not acknowledged again.
      return Reply.json(409, Map.of("text", "Once more."));
    }
    return Reply.json(Map.of("kept", now.ticks().size()));
  }

  private Reply show(Chair chair) {
    @Nullable RunningVisit running = chair.running();
    return Reply.html(
        Views.view(
            "chair",
            new ChairPage(
                folder.demo(),
                chair.url(),
                chair.name(),
                chair.visit().number(),
                running != null,
                running == null ? "" : running.clinician(),
                running == null ? "" : running.text(),
                running == null ? "" : chair.store(running),
                chair.visit().bookedMinutes(),
                MindWords.stopQuestions(chair.visit()),
                rows(chair),
                chair.visit().doses().stream()
                    .filter(dose -> chair.log().log().practice().agents().containsKey(dose.agent()))
                    .map(dose -> new ChairPage.Most(dose.agent(), dose.maxMg()))
                    .toList(),
                chair.visit().doses().stream()
                    .filter(
                        dose -> !chair.log().log().practice().agents().containsKey(dose.agent()))
                    .mapToDouble(Dose::share)
                    .sum())));
  }

  private static List<ChairPage.Row> rows(Chair chair) {
    Numbering numbering = chair.numbering();
    Practice practice = chair.log().log().practice();
    Map<InjectionRef, GivenInjection> injections = new LinkedHashMap<>();
    chair.visit().injections().forEach(one -> injections.put(one.ref(), one));
    List<ChairPage.Row> rows = new ArrayList<>();
    List<String> before = new ArrayList<>();
    List<Entry> sequence = chair.visit().sequence();
    for (int i = 0; i < sequence.size(); i++) {
      Entry entry = sequence.get(i);
      String where = PlanFileWords.of(practice).entry(entry, numbering);
      switch (entry.kind()) {
        case CHANGE_TIP -> before.add("Change to " + ((Entry.ChangeTip) entry).to());
        case WAIT -> before.add("Wait for " + where);
        case REPOSITION -> {}
        default -> {
          @Nullable GivenInjection given =
              entry instanceof Entry.Inject inject ? injections.get(inject.injection()) : null;
          rows.add(row(i, entry, where, List.copyOf(before), given, practice, numbering));
          before.clear();
        }
      }
    }
    return rows;
  }

  private static ChairPage.Row row(
      int of,
      Entry entry,
      String where,
      List<String> before,
      @Nullable GivenInjection given,
      Practice practice,
      Numbering numbering) {
    int start = entry.startSecond() / 60;
    if (entry instanceof Entry.Debride step) {
      return new ChairPage.Row(
          of,
          start,
          Words.capital(step.pass().word()),
          Words.place(step.area(), step.aspect(), numbering)
              + ", "
              + Words.teeth(step.teeth(), numbering),
          before,
          "",
          0,
          0,
          0,
          true);
    }
    if (given != null) {
      Agent agent = Objects.requireNonNull(practice.agents().get(given.agent()));
      Injection injection = Objects.requireNonNull(practice.injections().get(given.injection()));
      return new ChairPage.Row(
          of,
          start,
          "Inject",
          where + ", " + Words.number(given.ml(), 2) + " mL " + agent.words(),
          before,
          given.agent(),
          given.ml() * agent.mgPerMl().value(),
          minutes(agent.pulpalMinutes(), injection),
          minutes(agent.onsetMinutes(), injection),
          false);
    }
    String doing =
        entry instanceof Entry.OfFrame part
            ? FrameWords.of(part.task())
            : Words.capital(entry.kind().word().replace('-', ' '));
    boolean plain = entry instanceof Entry.OfFrame || entry instanceof Entry.SetUp;
    return new ChairPage.Row(of, start, doing, plain ? "" : where, before, "", 0, 0, 0, false);
  }

  private static int minutes(Map<Technique, Figure> by, Injection injection) {
    @Nullable Figure figure = by.get(injection.technique());
    return figure == null ? 0 : (int) figure.value();
  }

  // ---- the record

  private Reply end(Chair chair, RunningVisit running) {
    List<String> lines = List.of();
    List<String> doubts = List.of();
    List<String> faults = List.of();
    try {
      Draft draft = Draft.of(chair.log().log(), chair.said(running), 0, "");
      lines = lines(draft.done(), chair.numbering(), chair.log().log().practice());
      doubts =
          draft.doubts().stream()
              .map(doubt -> Words.capital(DoubtWords.of(doubt, chair.numbering(), chair.log().log().practice())) + ".")
              .toList();
    } catch (InvalidDocumentException invalid) {
      faults = invalid.faults().stream().map(Fault::message).toList();
    }
    if (!running.heedsStops(chair.visit())) {
      faults = List.of(UNANSWERED);
    } else if (!running.answered(chair.visit())) {
      List<String> more = new ArrayList<>(doubts);
      more.add(0, "Not every stop question has been answered.");
      doubts = more;
    }
    return Reply.html(
        faults.isEmpty() ? 200 : 422,
        Views.view(
            "chairEnd",
            new ChairEndPage(
                folder.demo(),
                chair.url(),
                chair.name(),
                chair.visit().number(),
                Request.revision(chair.revision()),
                lines,
                doubts,
                faults)));
  }

  private static List<String> lines(VisitDone done, Numbering numbering, Practice practice) {
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
            .map(step -> place(step, numbering) + (step.share() > 0 ? " (half done)" : ""))
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
    if (!done.findings().isEmpty()) {
      lines.add(Words.count(done.findings().size(), "injection") + " did not numb.");
    }
    if (!done.note().isEmpty()) {
      lines.add(done.note());
    }
    return lines;
  }

  private static String place(StepDone step, Numbering numbering) {
    return step.pass().word() + " " + Words.place(step.area(), step.aspect(), numbering);
  }

  private Reply record(Request request, Chair chair, RunningVisit running)
      throws IOException, InvalidDocumentException {
    boolean seen =
        Request.revision(chair.revision()).equals(request.form().getOrDefault("revision", ""));
    if (!seen || !running.heedsStops(chair.visit())) {
      return Reply.to(chair.url() + "/end");
    }
    Recorder.Outcome outcome =
        new Recorder(folder.course(chair.log()), folder.files())
            .record(OffsetDateTime.now(clock), chair.said(running));
    if (outcome instanceof Recorder.Refused) {
      return Reply.to(chair.url() + "/end");
    }
    // What was ticked stays until the record is on the disk.
    try {
      folder.endChair(chair.log(), chair.visit().number(), chair.revision());
    } catch (ChangedFileException tickedOn) {
      return Views.message(409, folder.demo(), "Recorded, but ticked on", List.of(TICKED_ON));
    }
    return Reply.to("/log/" + chair.log().id() + "/progress/print");
  }
}
