package quadrille.cli.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
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
import quadrille.diary.book.Clinician;
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
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final PracticeFolder folder;
  private final Clock clock;

  DiaryRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    Optional<LoadedDiary> loaded = folder.diary().map(read -> read.asOf(clock.instant()));
    if (request.path().size() != 1) {
      return Optional.empty();
    }
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
    if (request.is("POST")) {
      return change(loaded.get(), request.form());
    }
    return request.reading() ? week(loaded.get(), request.query()) : Optional.empty();
  }

  // ---- the week

  private Optional<Reply> week(LoadedDiary loaded, Map<String, String> query)
      throws InvalidDocumentException {
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
        : Optional.of(Reply.html(page(loaded, day.get(), said, List.of(), Map.of())));
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

  private String page(
      LoadedDiary loaded,
      LocalDate day,
      List<String> said,
      List<String> faults,
      Map<String, String> form)
      throws InvalidDocumentException {
    Diary diary = loaded.diary();
    LocalDate monday = DiaryWeek.monday(day);
    DiaryWeek week =
        DiaryWeek.of(loaded.over(LoadedDiary.days(diary, monday, monday.plusDays(6))), day);
    String by =
        form.getOrDefault(
            "by", diary.journal().stream().map(JournalEntry::by).reduce((a, b) -> b).orElse(""));
    List<DiaryRoomPage.Day> days = new ArrayList<>();
    int place = 0;
    for (DiaryWeek.Day one : week.days()) {
      List<DiaryRoomPage.Visit> visits = new ArrayList<>();
      for (Booking booking : one.bookings()) {
        visits.add(visit(diary, booking, place++, by, form));
      }
      days.add(new DiaryRoomPage.Day(DiaryWords.day(one.date()), visits));
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
            people(diary),
            by,
            diary.clinicians().stream()
                .map(one -> new DiaryRoomPage.Choice(one.id(), one.name()))
                .toList(),
            diary.chairs().stream()
                .map(one -> new DiaryRoomPage.Choice(one.id(), one.name()))
                .toList(),
            Why.SAID.stream()
                .map(why -> new DiaryRoomPage.Choice(why.word(), JournalWords.why(why)))
                .toList(),
            said,
            faults,
            changes,
            Journal.last(diary).map(entry -> JournalWords.title(entry, diary)).orElse("")));
  }

  private static List<String> people(Diary diary) {
    return Stream.concat(
            diary.clinicians().stream().map(Clinician::name),
            diary.journal().stream().map(JournalEntry::by))
        .distinct()
        .toList();
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
            typed.getOrDefault("time", start.format(TIME)),
            typed.getOrDefault("clinician", booking.clinician()),
            typed.getOrDefault("chair", ""),
            typed.getOrDefault("untilDay", ends == null ? "" : ends.toLocalDate().toString()),
            typed.getOrDefault("untilTime", ends == null ? "" : ends.format(TIME)),
            typed.getOrDefault("because", ""),
            typed.getOrDefault("note", "")));
  }

  /** What forms call a booking, which tells nothing of the patient. */
  private String id(Booking booking) {
    return folder.id("booking/" + booking.id());
  }

  // ---- changes

  private Optional<Reply> change(LoadedDiary loaded, Map<String, String> form)
      throws IOException, InvalidDocumentException {
    Diary diary = loaded.diary();
    Optional<LocalDate> day = day(diary, form.getOrDefault("week", ""));
    if (day.isEmpty()) {
      return Optional.empty();
    }
    if (!loaded.revision().equals(form.get("revision"))) {
      return refused(loaded, day.get(), 409, changed(diary), form);
    }
    List<String> faults = new ArrayList<>();
    @Nullable Signature signed = signature(form, faults);
    @Nullable DeskChange change = change(diary, form, faults);
    if (signed == null || change == null || !faults.isEmpty()) {
      return refused(loaded, day.get(), 422, faults, form);
    }
    ChangeAnswer answer = ChangeDesk.ask(loaded, change, signed);
    if (answer instanceof ChangeAnswer.Stopped stopped) {
      faults.add("Nothing was written; the change would make this:");
      stopped.made().forEach(finding -> faults.add(DiaryFindingWords.line(finding)));
      return refused(loaded, day.get(), 422, faults, form);
    }
    if (!(answer instanceof ChangeAnswer.Changed done)) {
      return refused(loaded, day.get(), 422, List.of(DeskWords.refusal(answer, diary)), form);
    }
    Path file = folder.root().resolve(PracticeFolder.DIARY);
    try {
      if (!ChangeDesk.write(file, done, folder.files())) {
        LoadedDiary now = folder.diary().orElse(loaded).asOf(clock.instant());
        return refused(now, day.get(), 409, changed(now.diary()), form);
      }
    } catch (RefusedDiaryException refused) {
      refused.findings().forEach(finding -> faults.add(DiaryFindingWords.line(finding)));
      return refused(loaded, day.get(), 422, faults, form);
    }
    LocalDate shown =
        change instanceof DeskChange.Move move
            ? LocalDate.ofInstant(move.start(), diary.zone())
            : day.get();
    return Optional.of(Reply.to("/diary?week=" + shown + "&done=" + done.entry().number()));
  }

  /** That the diary is another one by now, and what was done last. */
  private static List<String> changed(Diary now) {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Nothing was written: the diary has been changed since it was on your screen. It is shown"
            + " as it is now; look, and say it again.");
    now.journal().stream()
        .reduce((a, b) -> b)
        .ifPresent(
            last -> {
              lines.add("The last: " + JournalWords.title(last, now));
              lines.addAll(JournalWords.lines(last, now));
            });
    return lines;
  }

  private Optional<Reply> refused(
      LoadedDiary loaded, LocalDate day, int status, List<String> faults, Map<String, String> form)
      throws InvalidDocumentException {
    return Optional.of(Reply.html(status, page(loaded, day, List.of(), faults, form)));
  }

  private @Nullable Signature signature(Map<String, String> form, List<String> faults) {
    String by = form.getOrDefault("by", "").strip();
    String note = form.getOrDefault("note", "").strip();
    String because = form.getOrDefault("because", "");
    if (by.isEmpty() || by.length() > Signature.LONGEST || note.length() > Signature.LONGEST) {
      faults.add("Say who changes it, and keep the note to " + Signature.LONGEST + " letters.");
      return null;
    }
    @Nullable Why why =
        Why.SAID.stream().filter(one -> one.word().equals(because)).findFirst().orElse(null);
    if (form.getOrDefault("do", "").equals("call-off") && why == null) {
      faults.add("Say why the visit is called off.");
      return null;
    }
    return new Signature(by, clock.instant(), why, note.isEmpty() ? null : note);
  }

  private @Nullable DeskChange change(Diary diary, Map<String, String> form, List<String> faults) {
    String verb = form.getOrDefault("do", "");
    if (verb.equals("undo")) {
      return new DeskChange.Undo(false);
    }
    Booking booking =
        diary.bookings().stream()
            .filter(one -> id(one).equals(form.get("booking")))
            .findFirst()
            .orElse(null);
    if (booking == null) {
      faults.add("That visit is not in the diary any more.");
      return null;
    }
    return switch (verb) {
      case "call-off" -> new DeskChange.CallOff(booking.id(), form.containsKey("later"));
      case "promise" -> new DeskChange.Promise(booking.id());
      case "done" -> new DeskChange.Done(booking.id());
      case "hold" -> {
        boolean open =
            form.getOrDefault("untilDay", "").isEmpty()
                && form.getOrDefault("untilTime", "").isEmpty();
        Instant until = open ? null : moment(diary.zone(), form, "untilDay", "untilTime", faults);
        yield new DeskChange.Hold(booking.id(), until);
      }
      case "move" -> {
        Instant start = moment(diary.zone(), form, "day", "time", faults);
        String chair = form.getOrDefault("chair", "");
        String who = form.getOrDefault("clinician", "");
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
        faults.add("Nobody knows how to do that.");
        yield null;
      }
    };
  }

  /** A day and a time by the clock on the practice's wall. */
  private static @Nullable Instant moment(
      ZoneId zone, Map<String, String> form, String day, String time, List<String> faults) {
    try {
      LocalDate date = LocalDate.parse(form.getOrDefault(day, ""));
      LocalDateTime wall = date.atTime(LocalTime.parse(form.getOrDefault(time, ""), TIME));
      if (shown(date)) {
        if (zone.getRules().getValidOffsets(wall).size() == 1) {
          return wall.atZone(zone).toInstant();
        }
        faults.add("The clocks change at that time; take another.");
        return null;
      }
    } catch (DateTimeException noTime) {
      // Said below.
    }
    faults.add("Say a day and a time, such as 2026-03-09 and 10:30.");
    return null;
  }
}
