package quadrille.cli.serve;

import java.io.IOException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import quadrille.cli.render.ChangeWords;
import quadrille.cli.render.ClashWords;
import quadrille.cli.render.WayWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.PlanPages;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ProgressPages;
import quadrille.cli.serve.PracticeFolder.Log;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Visit;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.recording.LoggedPlan;
import quadrille.treatment.recording.Recorder;
import quadrille.treatment.restaging.Restaged;
import quadrille.treatment.restaging.Restager;
import quadrille.treatment.restaging.WayOn;

/**
 * An accepted course: the pages to print, the same as those of the command page, and the ways in
 * which it may go on after a visit.
 */
final class LogRoom {

  private static final String OTHER =
      "The course has been written to since its ways on were shown. Load them again.";

  private final PracticeFolder folder;
  private final Clock clock;

  LogRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    Optional<Log> log = folder.log(request.part(1)::equals);
    if (log.isEmpty()) {
      return Optional.empty();
    }
    String path = String.join("/", request.path().subList(2, request.path().size()));
    if (path.equals("on")) {
      return request.reading() || request.is("POST")
          ? Optional.of(on(request, log.get()))
          : Optional.empty();
    }
    if (!request.reading()) {
      return Optional.empty();
    }
    return switch (path) {
      case "print" -> Optional.of(sheets(log.get()));
      case "progress/print" ->
          Optional.of(
              Reply.html(
                  ProgressPages.of(
                      log.get().log(), EnumSet.of(ProgressKind.PROGRESS), Language.english())));
      default -> Optional.empty();
    };
  }

  private Reply sheets(Log log) {
    LoggedPlan plan = LoggedPlan.of(log.log());
    List<Finding> findings = plan.audit();
    return findings.isEmpty()
        ? Reply.html(
            PlanPages.of(
                plan.chart(),
                plan.practice(),
                plan.course(),
                plan.booked(),
                EnumSet.allOf(PageKind.class),
                Language.english()))
        : Views.message(
            409,
            folder.demo(),
            "The plan does not pass its audit, so no page is drawn",
            findings.stream().map(Finding::line).toList());
  }

  // ---- how it goes on

  /** What is promised in the diary stands, whether or not the log has been told. */
  private CourseLog booked(Log log) throws IOException {
    try {
      Optional<Diary> diary = folder.diary().map(LoadedDiary::diary);
      List<Event.Appointment> promised =
          CourseState.of(log.log()).toCome().stream()
              .flatMap(visit -> diary.stream().flatMap(one -> promised(one, log, visit).stream()))
              .toList();
      if (promised.isEmpty()) {
        return log.log();
      }
      List<LogEntry> entries = new ArrayList<>(log.log().entries());
      entries.add(
          new LogEntry(
              entries.size() + 1,
              OffsetDateTime.now(clock),
              new Event.Booked(promised),
              log.log().numbering()));
      return new CourseLog(entries, null);
    } catch (InvalidDocumentException unread) {
      // The rooms that show the diary say so.
      return log.log();
    }
  }

  private static Optional<Event.Appointment> promised(Diary diary, Log log, Visit visit) {
    return diary
        .standing(log.log().planned().course().caseName(), visit.number())
        .filter(booking -> booking.status() == BookingStatus.PROMISED)
        .map(
            booking ->
                new Event.Appointment(
                    visit.number(),
                    booking.start().atZone(diary.zone()).toLocalDateTime(),
                    booking.minutes(),
                    booking.clinician()));
  }

  private Reply on(Request request, Log log) throws IOException, InvalidDocumentException {
    CourseLog now = booked(log);
    Restager restager = new Restager(Effort.QUICK);
    try {
      Restager.Outcome outcome = restager.restage(now, now.practice(), null);
      if (outcome instanceof Restager.Outcome.Unconfirmed) {
        return refused(List.of("Teeth of this course are in doubt: quadrille record --show."));
      }
      if (outcome instanceof Restager.Outcome.NoCourse none) {
        return refused(ClashWords.of(none.clashes(), now.practice()));
      }
      List<WayOn> ways =
          restager.ways(now, now.practice(), null, ((Restager.Outcome.Again) outcome).restaged());
      return request.is("POST")
          ? adopt(request, log, ways)
          : Reply.html(
              Views.view(
                  "on",
                  page(
                      log, now, ways, request.query().getOrDefault("diary", "").equals("untold"))));
    } catch (UnworkableException unworkable) {
      return refused(
          List.of("By its file as it is, the practice cannot do the work of this mouth."));
    }
  }

  private Reply refused(List<String> lines) {
    return Views.message(409, folder.demo(), "What is left cannot be planned as it stands", lines);
  }

  private OnPage page(Log log, CourseLog now, List<WayOn> ways, boolean untold) {
    return new OnPage(
        folder.demo(),
        "/log/" + log.id(),
        now.planned().course().caseName(),
        log.log().entries().size(),
        untold,
        ways.get(0).restaged().changes().isEmpty(),
        ways.get(0).restaged().course().visits().isEmpty(),
        ways.stream()
            .map(
                way ->
                    new OnPage.Way(
                        Words.capital(WayWords.kind(way.kind())),
                        WayWords.cost(way),
                        way.restaged().changes().stream()
                            .map(
                                change -> ChangeWords.what(change, now.numbering(), now.practice()))
                            .toList()))
            .toList());
  }

  private Reply adopt(Request request, Log log, List<WayOn> ways)
      throws IOException, InvalidDocumentException {
    int entries = log.log().entries().size();
    String way = request.form().getOrDefault("way", "");
    Optional<WayOn> taken =
        IntStream.range(0, ways.size())
            .filter(i -> Integer.toString(i + 1).equals(way))
            .mapToObj(ways::get)
            .findFirst();
    if (taken.isEmpty()
        || !Integer.toString(entries).equals(request.form().getOrDefault("entries", ""))) {
      return Views.message(409, folder.demo(), "Not adopted", List.of(OTHER));
    }
    Restaged restaged = taken.get().restaged();
    Recorder.Outcome outcome =
        new Recorder(folder.course(log), folder.files())
            .adopt(
                OffsetDateTime.now(clock),
                entries,
                new Event.Replanned(restaged.course(), restaged.chart(), restaged.changes(), null));
    return outcome instanceof Recorder.Written
        ? Reply.to("/log/" + log.id() + "/progress/print")
        : Views.message(409, folder.demo(), "Not adopted", List.of(OTHER));
  }
}
