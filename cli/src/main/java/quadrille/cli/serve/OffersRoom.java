package quadrille.cli.serve;

import java.io.IOException;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.BookWords;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.cli.serve.BookableCourses.Open;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.Signature;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.desk.BookingAnswer;
import quadrille.diary.desk.BookingDesk;
import quadrille.diary.desk.BookingOrder;
import quadrille.diary.desk.BookingTaken;
import quadrille.diary.desk.PatientWishes;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;

/**
 * Times offered for a course, side by side, and one of them taken; by the same desk as the command
 * book.
 */
final class OffersRoom {

  private static final int USUAL_DAYS = 56;
  private static final int MOST_DAYS = 730;
  private static final int OFFERS = 3;

  private final PracticeFolder folder;
  private final BookableCourses courses;
  private final Clock clock;

  OffersRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.courses = new BookableCourses(folder);
    this.clock = clock;
  }

  /**
   * Answers with offers, or takes one.
   *
   * @param loaded the diary as it is now
   */
  Optional<Reply> answer(Request request, LoadedDiary loaded)
      throws IOException, InvalidDocumentException {
    DeskForm form = new DeskForm(request.is("POST") ? request.form() : request.query());
    Optional<Open> course = courses.named(loaded.diary(), form.field("course"));
    if (course.isEmpty()) {
      return request.is("POST")
          ? Optional.of(
              Views.message(
                  409,
                  folder.demo(),
                  "Diary",
                  List.of("That course has no visit to book any more.")))
          : Optional.empty();
    }
    List<Finding> audit = course.get().audit();
    if (!audit.isEmpty()) {
      return Optional.of(
          Views.message(
              409,
              folder.demo(),
              "The plan does not pass its audit, so no time is offered for it",
              audit.stream().map(Finding::line).toList()));
    }
    Asked asked = new Asked(course.get(), form, wishes(loaded.diary(), course.get(), form));
    return Optional.of(request.is("POST") ? taken(loaded, asked) : offered(loaded, asked, 200));
  }

  private record Asked(Open course, DeskForm form, OffersPage.Wishes wishes) {}

  /** As typed, or what is usual. */
  private OffersPage.Wishes wishes(Diary diary, Open course, DeskForm form) {
    LocalDate tomorrow = LocalDate.ofInstant(clock.instant(), diary.zone()).plusDays(1);
    LocalDate from = form.day("from", course.from(tomorrow));
    LocalDate first = from == null ? tomorrow : from;
    LocalDate until = form.day("until", course.until(first.plusDays(USUAL_DAYS - 1L), diary));
    LocalDate last = until == null ? first : until;
    List<OffersPage.Weekday> days = new ArrayList<>();
    for (DayOfWeek day : DayOfWeek.values()) {
      String value = day.name().toLowerCase(Locale.ROOT);
      days.add(
          new OffersPage.Weekday(
              value,
              day.getDisplayName(TextStyle.SHORT, Locale.ENGLISH),
              form.fields().containsKey(value)));
    }
    return new OffersPage.Wishes(
        first.toString(),
        last.toString(),
        form.field("clinician"),
        days,
        form.field("earliest"),
        form.field("latest"),
        form.field("longerGaps").strip(),
        form.field("allowedBy").strip());
  }

  private BookingOrder order(Asked asked, @Nullable Instant holdUntil) {
    OffersPage.Wishes wishes = asked.wishes();
    LocalDate first = LocalDate.parse(wishes.from());
    LocalDate last = LocalDate.parse(wishes.until());
    if (last.isBefore(first) || last.isAfter(first.plusDays(MOST_DAYS))) {
      asked.form().fault("The last day is the first or a later one, of the next two years.");
      last = first;
    }
    Course plan = asked.course().plan();
    return new BookingOrder(
        plan == null ? List.of() : List.of(plan),
        plan == null,
        new PatientWishes(
            can(asked),
            List.of(),
            List.of(),
            List.of(),
            wishes.clinician().isEmpty() ? null : wishes.clinician()),
        BookingWeights.defaults(),
        first,
        last,
        OFFERS,
        holdUntil,
        plan == null ? asked.course().caseName() : null,
        longer(asked));
  }

  /** Both fields or neither. */
  private static @Nullable LongerGaps longer(Asked asked) {
    String days = asked.wishes().longerGaps();
    String name = asked.wishes().allowedBy();
    if (days.isEmpty() && name.isEmpty()) {
      return null;
    }
    if (days.matches("[0-9]{1,2}") && !name.isEmpty() && name.length() <= LongerGaps.MOST_NAME) {
      int more = Integer.parseInt(days);
      if (more >= 1 && more <= LongerGaps.MOST_DAYS) {
        return new LongerGaps(more, name);
      }
    }
    asked
        .form()
        .fault(
            "Longer gaps need both: days, 1 to "
                + LongerGaps.MOST_DAYS
                + ", and the clinician who allows them.");
    return null;
  }

  /** When the patient can come; empty where nothing is said. */
  private static List<WeeklyHours> can(Asked asked) {
    OffersPage.Wishes wishes = asked.wishes();
    List<DayOfWeek> days = new ArrayList<>();
    for (OffersPage.Weekday day : wishes.days()) {
      if (day.chosen()) {
        days.add(DayOfWeek.valueOf(day.value().toUpperCase(Locale.ROOT)));
      }
    }
    if (days.isEmpty() && wishes.earliest().isEmpty() && wishes.latest().isEmpty()) {
      return List.of();
    }
    try {
      LocalTime from =
          wishes.earliest().isEmpty()
              ? LocalTime.MIDNIGHT
              : LocalTime.parse(wishes.earliest(), DeskForm.TIME);
      LocalTime to =
          wishes.latest().isEmpty()
              ? LocalTime.MIDNIGHT
              : LocalTime.parse(wishes.latest(), DeskForm.TIME);
      if (to.equals(LocalTime.MIDNIGHT) || from.isBefore(to)) {
        return List.of(
            new WeeklyHours(
                days.isEmpty() ? List.of(DayOfWeek.values()) : days, from, to, List.of()));
      }
    } catch (DateTimeException noTime) {
      // Said below.
    }
    asked.form().fault("Say the hours as such as 08:00 and 12:30, the earlier first.");
    return List.of();
  }

  private Reply offered(LoadedDiary loaded, Asked asked, int status)
      throws IOException, InvalidDocumentException {
    BookingOrder order = order(asked, null);
    if (!asked.form().right()) {
      return page(loaded, asked, null, 422);
    }
    try {
      return page(loaded, asked, BookingDesk.offer(loaded, order), status);
    } catch (RefusedDiaryException refused) {
      return refused(loaded, asked, refused);
    }
  }

  private Reply refused(LoadedDiary loaded, Asked asked, RefusedDiaryException refused) {
    refused
        .findings()
        .forEach(finding -> asked.form().fault(DiaryFindingWords.said(finding, loaded.diary())));
    return page(loaded, asked, null, 422);
  }

  private Reply taken(LoadedDiary loaded, Asked asked)
      throws IOException, InvalidDocumentException {
    DeskForm form = asked.form();
    Instant now = clock.instant();
    ZoneId zone = loaded.diary().zone();
    Instant until =
        form.field("holdDay").isEmpty() && form.field("holdTime").isEmpty()
            ? null
            : form.moment(zone, "holdDay", "holdTime");
    if (until != null && !until.isAfter(now)) {
      form.fault("A hold ends after now.");
    }
    Signature signed = form.signature(now, false);
    BookingOrder order = order(asked, until);
    try {
      BookingAnswer answer = BookingDesk.offer(loaded, order);
      if (!(answer instanceof BookingAnswer.Offered offered)) {
        return page(loaded, asked, answer, 409);
      }
      if (!offered.code().equals(form.field("seen"))) {
        DeskForm.changed(loaded.diary()).forEach(form::fault);
        return page(loaded, asked, answer, 409);
      }
      int number = number(form.field("take"), offered.offers().size());
      if (number < 1) {
        form.fault("Choose one of the offers.");
      }
      if (signed == null || !form.right()) {
        return page(loaded, asked, answer, 422);
      }
      BookingTaken taken =
          BookingDesk.take(
              folder.root().resolve(PracticeFolder.DIARY), offered, number, signed, folder.files());
      if (taken instanceof BookingTaken.Changed changed) {
        LoadedDiary there = folder.diary().orElse(loaded).asOf(clock.instant());
        DeskForm.changed(there.diary()).forEach(form::fault);
        changed.differences().forEach(one -> form.fault(BookWords.difference(one)));
        return page(there, asked, changed.again(), 409);
      }
      return Reply.to(
          "/diary?week="
              + offered.offer(number).visits().stream()
                  .map(OfferedVisit::start)
                  .min(Instant::compareTo)
                  .orElse(now)
                  .atZone(zone)
                  .toLocalDate()
              + "&done="
              + (loaded.diary().journal().stream().mapToInt(JournalEntry::number).max().orElse(0)
                  + 1));
    } catch (RefusedDiaryException refused) {
      return refused(loaded, asked, refused);
    }
  }

  /** 0 where it is none. */
  private static int number(String typed, int most) {
    for (int number = 1; number <= most; number++) {
      if (Integer.toString(number).equals(typed)) {
        return number;
      }
    }
    return 0;
  }

  private Reply page(LoadedDiary loaded, Asked asked, @Nullable BookingAnswer answer, int status) {
    Diary diary = loaded.diary();
    DeskForm form = asked.form();
    List<String> minds = new ArrayList<>();
    List<OffersPage.Offer> offers = new ArrayList<>();
    List<String> none = new ArrayList<>();
    List<String> helps = List.of();
    String code = "";
    if (answer instanceof BookingAnswer.Offered offered) {
      minds.addAll(minds(offered.asked()));
      code = offered.code();
      for (Offer offer : offered.offers()) {
        offers.add(offer(offer, offers.size() + 1, offered.asked().whole()));
      }
    } else if (answer instanceof BookingAnswer.NoWay noWay) {
      minds.addAll(minds(noWay.asked()));
      none.add(
          "No booking from "
              + asked.wishes().from()
              + " to "
              + asked.wishes().until()
              + " keeps every rule.");
      helps = BookWords.remedies(noWay);
    } else if (answer != null) {
      none.addAll(BookWords.refusal(answer).lines().toList());
    }
    return Reply.html(
        status,
        Views.view(
            "offers",
            new OffersPage(
                folder.demo(),
                asked.course().caseName(),
                asked.course().id(),
                asked.wishes(),
                DeskForm.clinicians(diary),
                List.copyOf(form.faults()),
                minds,
                offers,
                none,
                helps,
                code,
                DeskForm.people(diary),
                form.by(diary),
                form.field("holdDay"),
                form.field("holdTime"))));
  }

  private static List<String> minds(BookingAnswer.Asked asked) {
    List<String> minds = new ArrayList<>();
    asked.notes().forEach(note -> minds.add(note.calendar() + ": " + note.note()));
    Diary diary = asked.read().diary();
    asked.calledOff().forEach(off -> minds.add(BookWords.calledOff(off, diary, false)));
    asked.restated().forEach(one -> minds.add(BookWords.restated(one, diary, false)));
    asked.requests().stream()
        .filter(one -> one.provisional())
        .forEach(one -> minds.add(BookWords.held(List.of(one.caseName()))));
    return minds;
  }

  /** A line a visit, and below them which gaps are longer than the plan's longest. */
  private static List<String> lines(Offer offer, Diary diary) {
    List<String> lines = new ArrayList<>();
    offer.visits().forEach(visit -> lines.add(BookWords.visit(visit, diary)));
    lines.addAll(BookWords.stretched(offer, diary));
    return lines;
  }

  private static OffersPage.Offer offer(Offer offer, int number, Diary diary) {
    return offer.visits().isEmpty()
        ? new OffersPage.Offer(number, "Every visit keeps its time.", List.of(), "")
        : new OffersPage.Offer(
            number,
            BookWords.merits(offer, diary),
            lines(offer, diary),
            BookWords.reevaluation(offer));
  }
}
