package quadrille.cli.render;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.calendar.Interval;
import quadrille.plan.course.StopQuestion;

/** How days, times and bookings of a diary are said. */
public final class DiaryWords {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter SHORT =
      DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);

  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEE d MMM HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter WHEN_OTHER_YEAR =
      DateTimeFormatter.ofPattern("EEE d MMM uuuu HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH);
  private static final DateTimeFormatter DATE_OTHER_YEAR =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);

  private DiaryWords() {}

  /** Such as {@code Monday 2 March 2026}. */
  public static String day(LocalDate day) {
    return day.format(DAY);
  }

  /** Such as {@code Mon 2 Mar}. */
  public static String shortDay(LocalDate day) {
    return day.format(SHORT);
  }

  /**
   * Such as {@code Mon 2 Mar 09:30}, held together by no-break spaces.
   *
   * @param year which goes without saying
   */
  public static String when(Instant moment, ZoneId zone, int year) {
    ZonedDateTime wall = moment.atZone(zone);
    return noBreak(wall.format(wall.getYear() == year ? WHEN : WHEN_OTHER_YEAR));
  }

  /**
   * Such as {@code 2 Mar}, held together by no-break spaces.
   *
   * @param year which goes without saying
   */
  public static String date(LocalDate day, int year) {
    return noBreak(day.format(day.getYear() == year ? DATE : DATE_OTHER_YEAR));
  }

  /** Words that stay on one line. */
  static String noBreak(String words) {
    return words.replace(' ', '\u00a0');
  }

  /** A clinician's name, or the id where the diary has none. */
  public static String clinician(Diary diary, String id) {
    return diary.clinician(id).map(Clinician::name).orElse(id);
  }

  /** A chair's name, or the id where the diary has none. */
  public static String chair(Diary diary, String id) {
    return diary.chair(id).map(Chair::name).orElse(id);
  }

  /** When some visits are, such as {@code Mon 2 Mar 09:30, Mon 9 Mar 10:00}. */
  static String times(Diary diary, List<OfferedVisit> visits, int year) {
    return String.join(
        ", ", visits.stream().map(visit -> when(visit.start(), diary.zone(), year)).toList());
  }

  /**
   * Who, where and how long; once where it is the same in all visits.
   *
   * @param throughout whether to say that one clinician treats them all
   */
  static String places(Diary diary, List<OfferedVisit> visits, boolean throughout) {
    List<String> who = new ArrayList<>();
    List<String> chairs = new ArrayList<>();
    List<String> minutes = new ArrayList<>();
    for (OfferedVisit visit : visits) {
      who.add(clinician(diary, visit.clinician()));
      chairs.add(chair(diary, visit.chair()));
      minutes.add(Integer.toString(visit.minutes()));
    }
    return once(who)
        + (throughout ? " throughout; " : "; ")
        + once(chairs)
        + "; "
        + once(minutes)
        + "\u00a0min";
  }

  private static String once(List<String> words) {
    return words.stream().distinct().count() == 1 ? words.get(0) : String.join(", ", words);
  }

  /** By the clock on the wall, such as {@code 09:30}. */
  public static String time(Instant moment, ZoneId zone) {
    return moment.atZone(zone).format(TIME);
  }

  /** Such as {@code 09:30-10:20}. */
  public static String span(Interval time, ZoneId zone) {
    return time(time.start(), zone) + "-" + time(time.end(), zone);
  }

  /** Such as {@code 09:30-10:20, 14:00-15:00}; {@code none} where there is none. */
  public static String spans(List<Interval> times, ZoneId zone) {
    return times.isEmpty()
        ? "none"
        : String.join(", ", times.stream().map(time -> span(time, zone)).toList());
  }

  /** Such as {@code , Ada Example injects 09:40-09:52}; nothing where nobody comes in for that. */
  static String calls(Diary diary, List<InjectorCall> calls, Instant start) {
    StringBuilder words = new StringBuilder();
    for (InjectorCall call : calls) {
      words
          .append(", ")
          .append(clinician(diary, call.clinician()))
          .append(" injects\u00a0")
          .append(span(call.time(start), diary.zone()));
    }
    return words.toString();
  }

  /** Such as {@code DEMO-201 visit 2 of 3, Ines Example, Chair 2, promised}. */
  public static String booking(Diary diary, Booking booking) {
    return booking.caseName() + " " + facts(diary, booking);
  }

  /** Such as {@code visit 2 of 3, Ines Example, Chair 2, promised}. */
  public static String facts(Diary diary, Booking booking) {
    String of = diary.course(booking.caseName()).map(course -> " of " + last(course)).orElse("");
    return String.format(
        Locale.ROOT,
        "visit %d%s, %s, %s, %s%s",
        booking.visit(),
        of,
        clinician(diary, booking.clinician()),
        chair(diary, booking.chair()),
        booking.status().word(),
        calls(diary, booking.injectors(), booking.start()));
  }

  /** What is asked at the head of a booked visit. */
  public static List<StopQuestion> asked(Diary diary, Booking booking) {
    return diary
        .course(booking.caseName())
        .flatMap(course -> course.visit(booking.visit()))
        .map(VisitRequest::stopQuestions)
        .orElse(List.of());
  }

  private static int last(CourseRequest course) {
    return course.visits().get(course.visits().size() - 1).number();
  }

  /** What a course needs next, sentences. */
  public static List<String> next(Diary diary, DiaryWeek.Next next) {
    List<String> said = new ArrayList<>();
    Booking booked = next.booked();
    if (booked != null) {
      said.add(
          String.format(
              Locale.ROOT,
              "Visit %d of %d is held for %s, %s: to be promised or called off.",
              booked.visit(),
              last(next.course()),
              shortDay(booked.start().atZone(diary.zone()).toLocalDate()),
              span(booked.time(), diary.zone())));
    }
    VisitRequest visit = next.visit();
    if (visit == null) {
      return said;
    }
    LocalDate to = next.to();
    said.add(
        String.format(
            Locale.ROOT,
            "Visit %d of %d is to be booked: %d\u00a0min%s, %s.",
            visit.number(),
            last(next.course()),
            visit.minutes(),
            !visit.injections()
                ? ""
                : visit.needles().isEmpty()
                    ? ", someone who may inject"
                    : ", someone who may inject or comes in for that",
            to == null
                ? "from " + shortDay(next.from())
                : to.isBefore(next.from())
                    ? "overdue since " + shortDay(to)
                    : shortDay(next.from()) + " to " + shortDay(to)));
    return said;
  }
}
