package quadrille.diary.book;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import quadrille.diary.calendar.Interval;
import quadrille.facts.chart.Alert;
import quadrille.plan.course.StopQuestion;

/** Diaries that a file can hold, whether they make sense or not. */
final class DiaryArbitraries {

  private static final List<String> ZONES =
      List.of("Europe/Rome", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC");

  private static final List<StopQuestion> STOPS =
      List.of(
          new StopQuestion.OfAlert(Alert.ANTICOAGULANT, "Is the reading of today \u00e9?"),
          StopQuestion.Known.TAKE_THE_HISTORY,
          StopQuestion.Known.ASK_ABOUT_ALERTS);

  private DiaryArbitraries() {}

  static Arbitrary<Diary> diaries() {
    return Arbitraries.randomValue(DiaryArbitraries::diary);
  }

  private static Diary diary(Random random) {
    List<Clinician> clinicians = new ArrayList<>();
    for (int i = 0; i <= random.nextInt(3); i++) {
      clinicians.add(
          new Clinician(
              "c" + i,
              "Name \"" + i + "\" \u00e9",
              random.nextBoolean() ? List.of(Capability.INJECT) : List.of(),
              weekly(random, true),
              random.nextBoolean()
                  ? List.of()
                  : List.of(new ExtraHours(day(random), LocalTime.of(8, 0), LocalTime.MIDNIGHT)),
              off(random)));
    }
    List<Chair> chairs = new ArrayList<>();
    for (int i = 0; i <= random.nextInt(2); i++) {
      chairs.add(new Chair("r" + i, "Chair " + i, off(random)));
    }
    List<SterileStock.SterileSet> sets =
        List.of(
            new SterileStock.SterileSet("kit", random.nextInt(9), true),
            new SterileStock.SterileSet("slim", random.nextInt(9), false));
    List<CourseRequest> courses = new ArrayList<>();
    List<Booking> bookings = new ArrayList<>();
    for (int i = 0; i < random.nextInt(3); i++) {
      List<VisitRequest> visits = new ArrayList<>();
      for (int number = 1; number <= 1 + random.nextInt(3); number++) {
        int least = number == 1 ? 0 : random.nextInt(9);
        visits.add(
            new VisitRequest(
                number * 2,
                10 + random.nextInt(90),
                random.nextBoolean() ? List.of(Capability.INJECT) : List.of(),
                random.nextBoolean() ? List.of("kit", "slim") : List.of(),
                least,
                number == 1 ? 0 : least + random.nextInt(9),
                random.nextBoolean() ? List.of() : STOPS,
                random.nextBoolean()
                    ? List.of()
                    : List.of(new NeedleTime(0, 2), new NeedleTime(4, 9))));
        bookings.add(
            new Booking(
                "b" + i + "/" + number,
                "K-" + i,
                number * 2,
                moment(random),
                1 + random.nextInt(120),
                "c0",
                "r0",
                random.nextBoolean() ? List.of("kit", "kit") : List.of(),
                random.nextBoolean() ? List.of(Capability.INJECT) : List.of(),
                BookingStatus.ALL.get(random.nextInt(BookingStatus.ALL.size())),
                random.nextInt(3),
                null,
                random.nextBoolean() ? List.of() : List.of(new InjectorCall("c0", 0, 1))));
        Booking last = bookings.get(bookings.size() - 1);
        if (last.status() == BookingStatus.HELD && random.nextBoolean()) {
          bookings.set(bookings.size() - 1, last.heldUntil(moment(random)));
        }
      }
      courses.add(
          new CourseRequest(
              "K-" + i,
              LocalDate.of(2026, 3, 2),
              day(random),
              visits,
              random.nextInt(6),
              6 + random.nextInt(9),
              random.nextBoolean()
                  ? Availability.ANY
                  : new Availability(
                      weekly(random, false), off(random), List.of(Interval.of(moment(random), 30))),
              random.nextBoolean()
                  ? Preferences.NONE
                  : new Preferences(weekly(random, false), random.nextBoolean() ? "c0" : null),
              visits.size() < 2 || random.nextBoolean()
                  ? List.of()
                  : List.of(
                      new CourseRequest.Deadline(2, 2 * visits.size(), 1 + random.nextInt(365))),
              random.nextBoolean(),
              random.nextBoolean() ? null : day(random),
              random.nextBoolean() ? null : random.nextInt(366),
              random.nextBoolean() ? null : new LongerGaps(1 + random.nextInt(28), "Dr. \u00e9")));
    }
    Diary diary =
        new Diary(
                ZoneId.of(ZONES.get(random.nextInt(ZONES.size()))),
                Diary.GRIDS.get(random.nextInt(Diary.GRIDS.size())),
                clinicians,
                chairs,
                off(random),
                new SterileStock(random.nextInt(200), sets),
                courses,
                bookings,
                random.nextBoolean()
                    ? List.of()
                    : List.of(
                        new BusyTime(
                            Interval.of(moment(random), 1 + random.nextInt(9999)),
                            random.nextBoolean() ? "c0" : null,
                            random.nextBoolean() ? "r0" : null,
                            random.nextBoolean() ? List.of("kit") : List.of(),
                            null)),
                random.nextBoolean() ? List.of() : List.of(new CalendarLink("a b.ics", "c0", null)))
            .withExportKey(random.nextInt(3) == 0 ? null : "0f".repeat(16));
    Diary whole = diary.withInjectorMargin(random.nextBoolean() ? null : random.nextInt(60));
    return random.nextBoolean() ? whole : journalled(whole, random);
  }

  /** With a journal of some changes, made or not. */
  private static Diary journalled(Diary diary, Random random) {
    Diary now = diary;
    for (int i = 0; i <= random.nextInt(3); i++) {
      Signature signed =
          new Signature(
              "Ines \u00e9",
              moment(random),
              random.nextBoolean() ? null : Why.ALL.get(random.nextInt(Why.ALL.size())),
              random.nextBoolean() ? null : "a <note>");
      Diary after =
          now.withBookings(
                  now.bookings().stream()
                      .map(one -> random.nextBoolean() ? one : one.with(BookingStatus.CANCELLED))
                      .toList())
              .withClosed(random.nextBoolean() ? now.closed() : List.of())
              .withCourses(
                  now.courses().stream()
                      .map(one -> one.withProvisional(random.nextBoolean()))
                      .toList());
      Deed did = Deed.ALL.get(random.nextInt(Deed.ALL.size()));
      now = Journal.entered(now, after, did, signed, Map.of());
      if (random.nextInt(4) == 0) {
        now = Journal.last(now).flatMap(one -> undone(diary, one)).orElse(now);
      }
    }
    return now;
  }

  private static Optional<Diary> undone(Diary diary, JournalEntry entry) {
    return Journal.undone(diary, entry, new Signature("Ines", entry.at()));
  }

  private static LocalDate day(Random random) {
    return LocalDate.of(2026, 1, 1).plusDays(random.nextInt(365));
  }

  /** Whole minutes, often in the nights when clocks change in Rome and New York. */
  private static Instant moment(Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> Instant.parse("2026-03-29T00:00:00Z").plusSeconds(60L * random.nextInt(180));
      case 1 -> Instant.parse("2026-10-25T00:00:00Z").plusSeconds(60L * random.nextInt(180));
      case 2 -> Instant.parse("2026-11-01T05:00:00Z").plusSeconds(60L * random.nextInt(180));
      default -> Instant.parse("2026-01-01T00:00:00Z").plusSeconds(60L * random.nextInt(500_000));
    };
  }

  private static List<WeeklyHours> weekly(Random random, boolean breaks) {
    if (random.nextInt(3) == 0) {
      return List.of();
    }
    return List.of(
        new WeeklyHours(
            List.of(DayOfWeek.of(1 + random.nextInt(3)), DayOfWeek.of(4 + random.nextInt(3))),
            LocalTime.of(8, random.nextInt(60)),
            random.nextBoolean() ? LocalTime.of(17, 30) : LocalTime.MIDNIGHT,
            breaks && random.nextBoolean()
                ? List.of(new WeeklyHours.Break(LocalTime.of(12, 0), LocalTime.of(12, 45)))
                : List.of(),
            random.nextBoolean() ? null : LocalDate.of(2026, 2, 1),
            random.nextBoolean() ? null : LocalDate.of(2026, 3, random.nextInt(1, 31))));
  }

  private static List<TimeOff> off(Random random) {
    LocalDate first = day(random);
    return switch (random.nextInt(3)) {
      case 0 -> List.of();
      case 1 -> List.of(TimeOff.day(first, "because <&>"));
      default ->
          List.of(
              new TimeOff(
                  first,
                  first.plusDays(random.nextInt(20)),
                  LocalTime.of(9, 0),
                  random.nextBoolean() ? LocalTime.of(10, 15) : LocalTime.MIDNIGHT,
                  null));
    };
  }
}
