package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ChairWords;
import quadrille.cli.render.DoneWords;
import quadrille.cli.render.DoubtWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.Words;
import quadrille.cli.serve.PracticeFolder.Log;
import quadrille.cli.serve.PracticeFolder.Text;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Signature;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.ChangeDesk;
import quadrille.diary.desk.DeskChange;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.ChangedFileException;
import quadrille.document.Expected;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Before;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.VisitRecordReader;
import quadrille.treatment.recording.Draft;
import quadrille.treatment.recording.LoggedPlan;
import quadrille.treatment.recording.Recorder;
import quadrille.treatment.recording.RunningVisit;
import quadrille.treatment.recording.RunningVisit.Tick;
import quadrille.treatment.recording.Said;
import quadrille.treatment.restaging.Numbed;
import quadrille.treatment.restaging.OrderAtTheChair;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;

/**
 * A visit run at the chair: what is ticked is kept at once, survives a reload, and becomes the
 * record once it has been looked over and confirmed.
 */
final class ChairRoom {

  private static final String UNANSWERED =
      "Every stop question is answered before anything else is ticked.";
  private static final String ELSEWHERE =
      "This visit is being run in another window too. Load it again.";
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
        file.isPresent()
            ? RunningVisit.read(
                "the visit at the chair", file.get().text(), log.get().log().numbering())
            : null;
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
      case "POST order" -> Optional.of(order(request, chair, running));
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
    String text = begun.text(chair.numbering());
    RunningVisit.read("who works", text, chair.numbering());
    try {
      folder.writeChair(chair.log(), chair.visit().number(), text, chair.revision());
    } catch (FileAlreadyExistsException | ChangedFileException other) {
      // Somebody has begun it meanwhile, and is shown.
    }
    return Reply.to(chair.url());
  }

  /** Keeps ticks; those that are there already count once. */
  private Reply tick(Request request, Chair chair, RunningVisit running)
      throws IOException, InvalidDocumentException {
    List<Tick> ticks = RunningVisit.ticks("what was ticked", request.text(), chair.numbering());
    for (Tick tick : ticks) {
      // An order is kept by its own address alone, which looks at the rules first.
      if (tick.kind() == RunningVisit.Kind.ORDER && !running.ticks().contains(tick)
          || running.ticks().stream()
              .anyMatch(one -> one.number() == tick.number() && !one.equals(tick))) {
        return Reply.json(412, Map.of("text", ELSEWHERE));
      }
    }
    RunningVisit now = running.with(ticks);
    if (!now.whole()) {
      return Reply.json(412, Map.of("text", "What was ticked before is missing. Load it again."));
    }
    if (!now.heedsStops(chair.visit())) {
      return Reply.json(412, Map.of("text", UNANSWERED));
    }
    if (ticks.stream().anyMatch(tick -> tick.found() != null)) {
      // What the record could not hold is said now, and not once the patient has left.
      try {
        Draft.of(chair.log().log(), chair.said(now), 0, "");
      } catch (InvalidDocumentException invalid) {
        return Reply.json(422, Map.of("text", invalid.faults().get(0).message()));
      }
    }
    return keep(chair, now);
  }

  private Reply keep(Chair chair, RunningVisit now) throws IOException {
    try {
      folder.writeChair(
          chair.log(), chair.visit().number(), now.text(chair.numbering()), chair.revision());
    } catch (ChangedFileException other) {
      // Two at once: the browser sends what is not acknowledged again.
      return Reply.json(409, Map.of("text", "Once more."));
    }
    return Reply.json(Map.of("kept", now.ticks().size()));
  }

  private Reply show(Chair chair) throws IOException {
    @Nullable RunningVisit running = chair.running();
    GoesOn goesOn = goesOn(chair);
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
                running == null ? "" : running.text(chair.numbering()),
                running == null ? "" : chair.store(running),
                chair.visit().bookedMinutes(),
                comingIn(chair),
                MindWords.stopQuestions(chair.visit()),
                goesOn.cautions(),
                rows(chair, goesOn.ordered()),
                places(chair),
                VisitRecordReader.sites(),
                chair.visit().doses().stream()
                    .filter(dose -> chair.log().log().practice().agents().containsKey(dose.agent()))
                    .map(
                        dose ->
                            new ChairPage.Most(
                                dose.agent(),
                                Words.agent(dose.agent(), chair.log().log().practice()),
                                dose.maxMg()))
                    .toList(),
                chair.visit().doses().stream()
                    .filter(
                        dose -> !chair.log().log().practice().agents().containsKey(dose.agent()))
                    .mapToDouble(Dose::share)
                    .sum())));
  }

  /** The visit as it is booked; empty where it is not, or no diary can be read. */
  private Optional<Booked> booked(Chair chair) throws IOException {
    try {
      return folder
          .diary()
          .map(LoadedDiary::diary)
          .flatMap(
              diary ->
                  diary
                      .standing(chair.name(), chair.visit().number())
                      .map(booking -> new Booked(diary, booking)));
    } catch (InvalidDocumentException unread) {
      // The rooms that show the diary say so.
      return Optional.empty();
    }
  }

  private record Booked(Diary diary, Booking booking) {}

  private List<String> comingIn(Chair chair) throws IOException {
    return booked(chair)
        .map(booked -> ChairWords.comingIn(booked.diary(), booked.booking()))
        .orElse(List.of());
  }

  private static List<ChairPage.Place> places(Chair chair) {
    return CourseState.of(chair.log().log()).chart().worked().stream()
        .map(tooth -> new ChairPage.Place(chair.numbering().name(tooth.tooth()), tooth.implant()))
        .toList();
  }

  /** The order in which the visit goes on, and what is to be minded about it. */
  private record GoesOn(Outcome.Ordered ordered, List<String> cautions) {}

  private GoesOn goesOn(Chair chair) throws IOException {
    Visit visit = chair.visit();
    @Nullable RunningVisit running = chair.running();
    Optional<RunningVisit.Order> order = running == null ? Optional.empty() : running.order();
    @Nullable Outcome outcome = order.map(one -> ordered(chair, one)).orElse(null);
    if (outcome instanceof Outcome.Ordered ordered) {
      return new GoesOn(ordered, cautions(chair, order.orElseThrow(), ordered));
    }
    List<Integer> places = IntStream.range(0, visit.sequence().size()).boxed().toList();
    return new GoesOn(
        new Outcome.Ordered(visit, places, visit.bookedMinutes(), List.of()),
        outcome instanceof Outcome.Not not
            ? List.of(ChairWords.asPlanned(not, chair.numbering(), chair.log().log().practice()))
            : List.of());
  }

  private List<String> cautions(Chair chair, RunningVisit.Order order, Outcome.Ordered ordered)
      throws IOException {
    List<Integer> over = order.over().stream().map(Tick::of).toList();
    List<Entry> sequence = ordered.visit().sequence();
    int next =
        IntStream.range(0, sequence.size())
            .filter(i -> over.contains(ordered.places().get(i)))
            .reduce(-1, (one, other) -> other);
    boolean numb =
        order.over().stream()
            .anyMatch(
                tick ->
                    tick.kind() != RunningVisit.Kind.SKIP
                        && chair.visit().sequence().get(tick.of()) instanceof Entry.Inject);
    long planned = next + 1 < sequence.size() ? sequence.get(next + 1).startSecond() : 0;
    long late = order.elapsed().minusSeconds(planned).toMinutes();
    List<String> cautions =
        new ArrayList<>(
            ChairWords.cautions(ordered.toBook(), chair.visit().bookedMinutes(), numb ? late : 0));
    cautions.addAll(ChairWords.notWaited(ordered, chair.numbering(), chair.log().log().practice()));
    List<Long> due =
        sequence.subList(next + 1, sequence.size()).stream()
            .filter(Entry.Inject.class::isInstance)
            .map(entry -> entry.startSecond() + 60 * late)
            .toList();
    booked(chair)
        .map(booked -> ChairWords.notBookedFor(booked.diary(), booked.booking(), due))
        .ifPresent(cautions::addAll);
    return cautions;
  }

  private static List<ChairPage.Row> rows(Chair chair, Outcome.Ordered ordered) {
    return new ChairRows(
            ordered.visit(), ordered.places(), chair.log().log().practice(), chair.numbering())
        .list();
  }

  /**
   * What was given before the visit on its day counts; which day it was planned for, no log says.
   */
  private static Outcome ordered(Chair chair, RunningVisit.Order order) {
    LoggedPlan plan = LoggedPlan.of(chair.log().log());
    List<OrderAtTheChair.Over> over = over(order.over());
    @Nullable CourseState before = plan.before();
    List<@Nullable Before> earlier = new ArrayList<>();
    if (before == null) {
      earlier.add(null);
    } else {
      earlier.add(before.before(null));
      earlier.add(before.before(before.lastDay()));
    }
    Outcome outcome = new Outcome.NotKnown(OrderAtTheChair.Cause.AUDIT);
    for (@Nullable Before one : earlier) {
      outcome =
          new OrderAtTheChair(plan.course(), plan.chart(), plan.practice(), one)
              .order(chair.visit().number(), over, order.steps());
      if (outcome instanceof Outcome.Ordered) {
        return outcome;
      }
    }
    return outcome;
  }

  private static List<OrderAtTheChair.Over> over(List<Tick> ended) {
    return ended.stream()
        .map(tick -> new OrderAtTheChair.Over(tick.of(), tick.kind() != RunningVisit.Kind.SKIP))
        .toList();
  }

  /** Puts what is left into another order, and keeps that as a tick. */
  private Reply order(Request request, Chair chair, RunningVisit running)
      throws IOException, InvalidDocumentException {
    List<Tick> ticks = RunningVisit.ticks("what was sent", request.text(), chair.numbering());
    List<Integer> over = running.over();
    List<Entry> sequence = chair.visit().sequence();
    boolean one =
        ticks.size() == 1
            && ticks.get(0).kind() == RunningVisit.Kind.ORDER
            && !ticks.get(0).order().isEmpty()
            && ticks.get(0).order().stream().distinct().count() == ticks.get(0).order().size()
            && ticks.get(0).order().stream()
                .allMatch(
                    at ->
                        at < sequence.size()
                            && sequence.get(at) instanceof Entry.Debride
                            && !over.contains(at));
    if (!one || ticks.get(0).number() != running.ticks().size() + 1) {
      return Reply.json(412, Map.of("text", ELSEWHERE));
    }
    RunningVisit.Order wanted = running.with(ticks).order().orElseThrow();
    Outcome outcome = ordered(chair, wanted);
    if (outcome instanceof Outcome.Not not) {
      String why = ChairWords.of(not, chair.numbering(), chair.log().log().practice());
      return Reply.json(422, Map.of("text", why));
    }
    Outcome.Ordered ordered = (Outcome.Ordered) outcome;
    List<Integer> left = ordered.steps().stream().filter(at -> !over.contains(at)).toList();
    Reply kept = keep(chair, running.with(List.of(ticks.get(0).withOrder(left))));
    return kept.status() != 200
        ? kept
        : Reply.json(
            Map.of(
                "cautions",
                cautions(chair, wanted, ordered),
                "rows",
                rows(chair, ordered).stream()
                    .map(
                        row ->
                            Reply.of("of", row.of(), "start", row.start(), "before", row.before()))
                    .toList()));
  }

  // ---- the record

  private Reply end(Chair chair, RunningVisit running) {
    List<String> lines = List.of();
    List<String> doubts = List.of();
    List<String> faults = List.of();
    try {
      Draft draft = Draft.of(chair.log().log(), chair.said(running), 0, "");
      Practice practice = chair.log().log().practice();
      lines = DoneWords.of(draft.done(), running.notes(), chair.numbering(), practice);
      List<String> doubted =
          new ArrayList<>(
              ChairWords.workedWithout(
                  Numbed.workedWithout(chair.visit(), over(running.ended()), practice),
                  chair.numbering()));
      draft
          .doubts()
          .forEach(
              doubt ->
                  doubted.add(
                      Words.capital(DoubtWords.of(doubt, chair.numbering(), practice)) + "."));
      doubts = doubted;
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
    boolean told = tellDiary(chair, running);
    return Reply.to("/log/" + chair.log().id() + "/on" + (told ? "" : "?diary=untold"));
  }

  /** Says in the diary that the visit took place; false where it stands there and cannot be. */
  private boolean tellDiary(Chair chair, RunningVisit running) throws IOException {
    try {
      Optional<LoadedDiary> loaded = folder.diary().map(one -> one.asOf(clock.instant()));
      Optional<Booking> booking =
          loaded
              .flatMap(one -> one.diary().standing(chair.name(), chair.visit().number()))
              .filter(Booking::coming);
      if (loaded.isEmpty() || booking.isEmpty()) {
        return true;
      }
      ChangeAnswer answer =
          ChangeDesk.ask(
              loaded.get(),
              new DeskChange.Done(booking.get().id()),
              new Signature(running.clinician(), clock.instant()));
      return answer instanceof ChangeAnswer.Changed changed
          && ChangeDesk.write(folder.root().resolve(PracticeFolder.DIARY), changed, folder.files());
    } catch (InvalidDocumentException | RefusedDiaryException unfit) {
      // The diary's room says what is wrong with it.
      return false;
    }
  }
}
