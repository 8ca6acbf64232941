package quadrille.cli.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.DeskWords;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.render.JournalWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.page.DiaryPages;
import quadrille.cli.render.picture.VisitColour;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.book.Journal;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.Signature;
import quadrille.diary.book.Why;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.ChangeDesk;
import quadrille.diary.desk.DeskChange;
import quadrille.diary.desk.FreedTime;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.InvalidDocumentException;

/**
 * The diary's week, and the desk's verbs on it. Each change goes the way of the commands: it is
 * checked, audited, entered in the journal, and written only where the diary still is the one that
 * was on the screen.
 */
final class DiaryRoom {

  private static final LocalDate FIRST = LocalDate.of(1900, 1, 8);
  private static final LocalDate LAST = LocalDate.of(9999, 12, 20);
  private static final int SHOWN = 12;

  private final PracticeFolder folder;
  private final Clock clock;
  private final BookableCourses courses;
  private final OffersRoom offers;
  private final AbsenceRoom absence;

  DiaryRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
    this.courses = new BookableCourses(folder);
    this.offers = new OffersRoom(folder, clock);
    this.absence = new AbsenceRoom(folder, clock);
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    Optional<LoadedDiary> loaded = folder.diary().map(read -> read.asOf(clock.instant()));
    if (loaded.isEmpty()) {
      return Optional.of(
          Views.message(
              200,
              folder.demo(),
              "Diary",
              List.of(
                  "The folder has no diary.json: the practice's clinicians, chairs and hours."
                      + " docs/diary.md says how to write one.")));
    }
    boolean sent = request.is("POST");
    if (!sent && !request.reading()) {
      return Optional.empty();
    }
    return switch (String.join("/", request.path())) {
      case "diary" ->
          sent
              ? change(loaded.get(), new DeskForm(request.form()))
              : week(loaded.get(), request.query());
      case "diary/offers" -> offers.answer(request, loaded.get());
      case "diary/absence" -> absence.answer(request, loaded.get());
      case "diary/try" ->
          sent ? Optional.of(tried(loaded.get(), new DeskForm(request.form()))) : Optional.empty();
      default -> Optional.empty();
    };
  }

  // ---- the week

  private Optional<Reply> week(LoadedDiary loaded, Map<String, String> query)
      throws IOException, InvalidDocumentException {
    Optional<LocalDate> day = day(loaded.diary(), query.getOrDefault("week", ""));
    List<String> said = new ArrayList<>();
    for (JournalEntry entry : loaded.diary().journal()) {
      if (Integer.toString(entry.number()).equals(query.get("done"))) {
        said.add(JournalWords.title(entry, loaded.diary()));
        said.addAll(JournalWords.lines(entry, loaded.diary()));
        FreedTime.of(loaded, entry, clock.instant())
            .forEach(
                one ->
                    said.add("Ask, for the free time: " + DeskWords.sooner(one, loaded.diary())));
      }
    }
    return day.isEmpty()
        ? Optional.empty()
        : Optional.of(Reply.html(page(loaded, day.get(), said, new DeskForm(Map.of()))));
  }

  /** The day asked for, else today; empty where it is none. */
  private Optional<LocalDate> day(Diary diary, String asked) {
    try {
      return Optional.of(
              asked.isEmpty()
                  ? LocalDate.ofInstant(clock.instant(), diary.zone())
                  : LocalDate.parse(asked))
          .filter(DiaryRoom::shown);
    } catch (DateTimeException noDay) {
      return Optional.empty();
    }
  }

  /** Whether a week of it can be shown. */
  private static boolean shown(LocalDate day) {
    return !day.isBefore(FIRST) && !day.isAfter(LAST);
  }

  private String page(LoadedDiary loaded, LocalDate day, List<String> said, DeskForm form)
      throws IOException, InvalidDocumentException {
    Diary diary = loaded.diary();
    LocalDate today = LocalDate.ofInstant(clock.instant(), diary.zone());
    LocalDate monday = DiaryWeek.monday(day);
    DiaryWeek week =
        DiaryWeek.of(loaded.over(LoadedDiary.days(diary, monday, monday.plusDays(6))), day, today);
    String by = form.by(diary);
    List<DiaryRoomPage.Day> days = new ArrayList<>();
    Map<String, String> ids = new LinkedHashMap<>();
    int place = 0;
    for (DiaryWeek.Day one : week.days()) {
      List<DiaryRoomPage.Visit> visits = new ArrayList<>();
      for (Booking booking : one.bookings()) {
        visits.add(visit(diary, booking, place++, by, form.fields()));
        if (booking.coming()) {
          ids.put(booking.id(), id(booking));
        }
      }
      days.add(new DiaryRoomPage.Day(DiaryWords.day(one.date()), one.date().toString(), visits));
    }
    List<JournalEntry> journal = diary.journal();
    List<DiaryRoomPage.Change> changes = new ArrayList<>();
    for (int i = journal.size() - 1; i >= Math.max(0, journal.size() - SHOWN); i--) {
      changes.add(
          new DiaryRoomPage.Change(
              JournalWords.title(journal.get(i), diary),
              JournalWords.lines(journal.get(i), diary)));
    }
    return Views.view(
        "diary",
        new DiaryRoomPage(
            folder.demo(),
            loaded.revision(),
            monday.toString(),
            monday.minusWeeks(1).toString(),
            monday.plusWeeks(1).toString(),
            DiaryPages.week(diary, week, loaded.notes()),
            days,
            ids,
            diary.startEveryMinutes(),
            today.toString(),
            courses(diary, week),
            DeskForm.people(diary),
            by,
            DeskForm.clinicians(diary),
            diary.chairs().stream()
                .map(one -> new DiaryRoomPage.Choice(one.id(), one.name()))
                .toList(),
            Why.SAID.stream()
                .map(why -> new DiaryRoomPage.Choice(why.word(), JournalWords.why(why)))
                .toList(),
            said,
            List.copyOf(form.faults()),
            changes,
            Journal.last(diary).map(entry -> JournalWords.title(entry, diary)).orElse("")));
  }

  /** What each course needs next: those of the diary, then accepted ones that it does not know. */
  private List<DiaryRoomPage.Course> courses(Diary diary, DiaryWeek week) throws IOException {
    Map<String, BookableCourses.Open> open = new LinkedHashMap<>();
    courses.of(diary).forEach(one -> open.put(one.caseName(), one));
    List<DiaryRoomPage.Course> all = new ArrayList<>();
    for (DiaryWeek.Next next : week.courses()) {
      String name = next.course().caseName();
      all.add(
          new DiaryRoomPage.Course(
              courses.id(name),
              name,
              DiaryWords.next(diary, next),
              open.remove(name) != null,
              true));
    }
    for (BookableCourses.Open one : open.values()) {
      all.add(
          new DiaryRoomPage.Course(
              one.id(),
              one.caseName(),
              List.of(
                  (one.visits().size() == 1 ? "Visit " : "Visits ")
                      + String.join(", ", one.visits().stream().map(String::valueOf).toList())
                      + (one.visits().size() == 1 ? " is" : " are")
                      + " to be booked, as accepted."),
              true,
              diary.course(one.caseName()).isPresent()));
    }
    return all;
  }

  private DiaryRoomPage.Visit visit(
      Diary diary, Booking booking, int place, String by, Map<String, String> form) {
    String id = id(booking);
    ZoneId zone = diary.zone();
    LocalDateTime start = LocalDateTime.ofInstant(booking.start(), zone);
    Instant until = booking.until();
    LocalDateTime ends = until == null ? null : LocalDateTime.ofInstant(until, zone);
    boolean asked = id.equals(form.get("booking"));
    Map<String, String> typed = asked ? form : Map.of();
    return new DiaryRoomPage.Visit(
        id,
        place,
        DiaryWords.span(booking.time(), zone),
        booking.caseName(),
        booking.visit(),
        VisitColour.styleClass(booking.visit()),
        DiaryWords.facts(diary, booking),
        DiaryWords.asked(diary, booking).stream().map(MindWords::of).toList(),
        booking.coming(),
        booking.status() == BookingStatus.HELD,
        !booking.start().isAfter(clock.instant()),
        asked,
        new DiaryRoomPage.Typed(
            by,
            typed.getOrDefault("day", start.toLocalDate().toString()),
            typed.getOrDefault("time", start.format(DeskForm.TIME)),
            typed.getOrDefault("clinician", booking.clinician()),
            typed.getOrDefault("chair", ""),
            typed.getOrDefault("untilDay", ends == null ? "" : ends.toLocalDate().toString()),
            typed.getOrDefault("untilTime", ends == null ? "" : ends.format(DeskForm.TIME)),
            typed.getOrDefault("because", ""),
            typed.getOrDefault("note", "")));
  }

  /** What forms call a booking, which tells nothing of the patient. */
  private String id(Booking booking) {
    return folder.id("booking/" + booking.id());
  }

  // ---- changes

  private Optional<Reply> change(LoadedDiary loaded, DeskForm form)
      throws IOException, InvalidDocumentException {
    Diary diary = loaded.diary();
    Optional<LocalDate> day = day(diary, form.field("week"));
    if (day.isEmpty()) {
      return Optional.empty();
    }
    if (!loaded.revision().equals(form.field("revision"))) {
      DeskForm.changed(diary).forEach(form::fault);
      return refused(loaded, day.get(), 409, form);
    }
    String verb = form.field("do");
    @Nullable Signature signed =
        form.signature(clock.instant(), verb.equals("call-off") || verb.equals("end"));
    @Nullable DeskChange change = change(diary, form);
    if (signed == null || change == null || !form.right()) {
      return refused(loaded, day.get(), 422, form);
    }
    ChangeAnswer answer = ChangeDesk.ask(loaded, change, signed);
    if (!(answer instanceof ChangeAnswer.Changed done)) {
      if (answer instanceof ChangeAnswer.Stopped) {
        form.fault("Nothing was written; the change would make this:");
      }
      DeskWords.said(answer, diary).forEach(form::fault);
      return refused(loaded, day.get(), 422, form);
    }
    Path file = folder.root().resolve(PracticeFolder.DIARY);
    try {
      if (!ChangeDesk.write(file, done, folder.files())) {
        LoadedDiary now = folder.diary().orElse(loaded).asOf(clock.instant());
        DeskForm.changed(now.diary()).forEach(form::fault);
        return refused(now, day.get(), 409, form);
      }
    } catch (RefusedDiaryException refused) {
      refused.findings().forEach(finding -> form.fault(DiaryFindingWords.said(finding, diary)));
      return refused(loaded, day.get(), 422, form);
    }
    LocalDate shown =
        change instanceof DeskChange.Move move
            ? LocalDate.ofInstant(move.start(), diary.zone())
            : day.get();
    return Optional.of(Reply.to("/diary?week=" + shown + "&done=" + done.entry().number()));
  }

  private Optional<Reply> refused(LoadedDiary loaded, LocalDate day, int status, DeskForm form)
      throws IOException, InvalidDocumentException {
    return Optional.of(Reply.html(status, page(loaded, day, List.of(), form)));
  }

  /** What a move would break; nothing is written, and nobody has to say who asks. */
  private Reply tried(LoadedDiary loaded, DeskForm form) throws InvalidDocumentException {
    Diary diary = loaded.diary();
    if (!loaded.revision().equals(form.field("revision"))) {
      return Reply.json(
          Reply.of(
              "right",
              false,
              "lines",
              List.of("The diary has been changed since it was on your screen; load it again.")));
    }
    @Nullable DeskChange change = change(diary, form);
    boolean right = false;
    if (change instanceof DeskChange.Move && form.right()) {
      ChangeAnswer answer = ChangeDesk.ask(loaded, change, new Signature("desk", clock.instant()));
      right = answer instanceof ChangeAnswer.Changed;
      if (!right) {
        DeskWords.said(answer, diary).forEach(form::fault);
      }
    }
    return Reply.json(
        Reply.of("right", right, "lines", right ? List.of("It breaks no rule.") : form.faults()));
  }

  private @Nullable DeskChange change(Diary diary, DeskForm form) {
    String verb = form.field("do");
    if (verb.equals("undo")) {
      return new DeskChange.Undo(false);
    }
    if (verb.equals("end") && !form.field("course").isEmpty()) {
      for (CourseRequest course : diary.courses()) {
        if (courses.id(course.caseName()).equals(form.field("course"))) {
          return new DeskChange.EndCourse(course.caseName());
        }
      }
      form.fault("That course is not in the diary any more.");
      return null;
    }
    Booking booking =
        diary.bookings().stream()
            .filter(one -> id(one).equals(form.field("booking")))
            .findFirst()
            .orElse(null);
    if (booking == null) {
      form.fault("That visit is not in the diary any more.");
      return null;
    }
    return switch (verb) {
      case "call-off" -> new DeskChange.CallOff(booking.id(), form.fields().containsKey("later"));
      case "end" -> new DeskChange.EndCourse(booking.caseName());
      case "promise" -> new DeskChange.Promise(booking.id());
      case "done" -> new DeskChange.Done(booking.id());
      case "hold" -> {
        boolean open = form.field("untilDay").isEmpty() && form.field("untilTime").isEmpty();
        Instant until = open ? null : form.moment(diary.zone(), "untilDay", "untilTime");
        yield new DeskChange.Hold(booking.id(), until);
      }
      case "move" -> {
        Instant start = form.moment(diary.zone(), "day", "time");
        String chair = form.field("chair");
        String who = form.field("clinician");
        yield start == null
            ? null
            : new DeskChange.Move(
                booking.id(),
                start,
                who.isEmpty() ? null : who,
                chair.isEmpty() ? null : chair,
                false);
      }
      default -> {
        form.fault("Nobody knows how to do that.");
        yield null;
      }
    };
  }
}
