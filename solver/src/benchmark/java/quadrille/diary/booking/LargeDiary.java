package quadrille.diary.booking;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.Journal;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.Signature;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;

/**
 * Writes a diary of two years: five clinicians and chairs, eight visits of an hour a day each,
 * three a course and a week apart, 20,400 in all, less the last visit of each fiftieth course,
 * which waits. What lies before a day is done. With a journal, each course's booking is entered in
 * it. Arguments: a file, the first Monday, the day that is today, and {@code journal} or nothing.
 */
public final class LargeDiary {

  private static final ZoneId ZONE = ZoneId.of("Europe/Berlin");
  private static final int PEOPLE = 5;

  private LargeDiary() {}

  public static void main(String[] args) throws IOException {
    Diary diary = of(LocalDate.parse(args[1]), LocalDate.parse(args[2]), args.length > 3);
    Files.writeString(Path.of(args[0]), DiaryWriter.write(diary));
    System.out.println(
        diary.bookings().size()
            + " bookings, "
            + diary.courses().size()
            + " courses, "
            + diary.journal().size()
            + " entries, "
            + Files.size(Path.of(args[0]))
            + " bytes");
  }

  private static Diary of(LocalDate monday, LocalDate today, boolean journal) {
    List<Clinician> people = new ArrayList<>();
    List<Chair> chairs = new ArrayList<>();
    WeeklyHours hours =
        new WeeklyHours(
            List.of(DayOfWeek.values()).subList(0, 5),
            LocalTime.of(8, 0),
            LocalTime.of(17, 0),
            List.of(new WeeklyHours.Break(LocalTime.of(12, 0), LocalTime.of(13, 0))));
    for (int i = 0; i < PEOPLE; i++) {
      people.add(
          new Clinician(
              "c" + i,
              "Invented " + i,
              List.of(Capability.INJECT),
              List.of(hours),
              List.of(),
              List.of()));
      chairs.add(new Chair("h" + i, "Chair " + i, List.of()));
    }
    List<CourseRequest> courses = new ArrayList<>();
    List<Booking> bookings = new ArrayList<>();
    Instant now = today.atStartOfDay(ZONE).toInstant();
    for (int weeks = 0; weeks < 102; weeks += 3) {
      for (int weekday = 0; weekday < 5; weekday++) {
        for (int slot = 0; slot < 8 * PEOPLE; slot++) {
          LocalDate first = monday.plusDays(7L * weeks + weekday);
          String name = "L-" + (courses.size() + 1);
          courses.add(course(name, first));
          int visits = courses.size() % 50 == 0 ? 2 : 3;
          for (int visit = 1; visit <= visits; visit++) {
            int hour = slot % 8 < 4 ? 8 + slot % 8 : 9 + slot % 8;
            Instant start =
                first.plusDays(7L * (visit - 1)).atTime(hour, 0).atZone(ZONE).toInstant();
            bookings.add(
                new Booking(
                    name + "/" + visit,
                    name,
                    visit,
                    start,
                    60,
                    "c" + slot / 8,
                    "h" + slot / 8,
                    List.of("kit"),
                    List.of(Capability.INJECT),
                    start.isBefore(now) ? BookingStatus.DONE : BookingStatus.PROMISED));
          }
        }
      }
    }
    Diary diary =
        new Diary(
            ZONE,
            10,
            people,
            chairs,
            List.of(),
            new SterileStock(60, List.of(new SterileStock.SterileSet("kit", 12, true))),
            courses,
            bookings,
            List.of(),
            List.of());
    return journal ? entered(diary, now) : diary;
  }

  /** As if each course had been booked by itself, all at one moment. */
  private static Diary entered(Diary diary, Instant now) {
    Diary so = diary.withCourses(List.of()).withBookings(List.of());
    List<JournalEntry> entries = new ArrayList<>();
    int at = 0;
    for (CourseRequest course : diary.courses()) {
      int to = at;
      while (to < diary.bookings().size()
          && diary.bookings().get(to).caseName().equals(course.caseName())) {
        to++;
      }
      Diary one =
          Journal.entered(
              so,
              so.withCourses(List.of(course)).withBookings(diary.bookings().subList(at, to)),
              Deed.BOOK,
              new Signature("desk", now),
              Map.of());
      JournalEntry entry = one.journal().get(0);
      entries.add(
          new JournalEntry(
              entries.size() + 1,
              entry.at(),
              entry.by(),
              entry.did(),
              entry.because(),
              entry.note(),
              entry.undoes(),
              entry.bookings(),
              entry.courses(),
              entry.absences()));
      at = to;
    }
    return diary.withJournal(entries);
  }

  private static CourseRequest course(String name, LocalDate first) {
    List<VisitRequest> visits = new ArrayList<>();
    for (int i = 1; i <= 3; i++) {
      visits.add(
          new VisitRequest(
              i, 60, List.of(Capability.INJECT), List.of("kit"), i == 1 ? 0 : 7, i == 1 ? 0 : 14));
    }
    return new CourseRequest(name, first, first, visits, 6, 12, Availability.ANY, Preferences.NONE);
  }
}
