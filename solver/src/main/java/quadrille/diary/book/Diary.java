package quadrille.diary.book;

import java.time.ZoneId;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;

/**
 * A practice's diary. Ids of clinicians, chairs and bookings, names of sets and cases of courses
 * are each unique.
 *
 * @param zone the practice's time zone; every day and every time of day in the diary is its own
 * @param startEveryMinutes visits start on this grid, counted from the full hour: 5, 10, 15, 20, 30
 *     or 60
 * @param clinicians at least one
 * @param chairs at least one
 * @param closed when the whole practice is closed
 * @param stock sterile sets
 * @param courses booked or waiting, in the order in which they asked
 * @param bookings visits of courses, whatever became of them
 * @param busy everything else that takes a clinician's or a chair's time
 * @param calendars iCalendar files whose events take time too
 * @param journal what was changed, oldest first; numbers rise
 * @param injectorMargin where the treating clinician may not inject, another comes in for so many
 *     minutes before and after the needles, 0 to 60; null where nobody comes in, and only a
 *     clinician who may inject treats a visit with injections
 * @param exportKey with which identifiers are made that tell nothing outside, see {@link
 *     ExportNames}; null where none was needed yet
 */
@Withers
public record Diary(
    ZoneId zone,
    int startEveryMinutes,
    List<Clinician> clinicians,
    List<Chair> chairs,
    List<TimeOff> closed,
    SterileStock stock,
    List<CourseRequest> courses,
    List<Booking> bookings,
    List<BusyTime> busy,
    List<CalendarLink> calendars,
    List<JournalEntry> journal,
    @Nullable Integer injectorMargin,
    @Nullable String exportKey)
    implements DiaryBuilder.With {

  /** The value of a diary file's {@code schema}. */
  public static final String SCHEMA = "quadrille/diary/1";

  /** What {@code startEveryMinutes} may be. */
  public static final List<Integer> GRIDS = List.of(5, 10, 15, 20, 30, 60);

  public Diary {
    clinicians = List.copyOf(clinicians);
    chairs = List.copyOf(chairs);
    closed = List.copyOf(closed);
    courses = List.copyOf(courses);
    bookings = List.copyOf(bookings);
    busy = List.copyOf(busy);
    calendars = List.copyOf(calendars);
    journal = List.copyOf(journal);
    if (!GRIDS.contains(startEveryMinutes)) {
      throw new IllegalArgumentException(
          "Visits cannot start every (" + startEveryMinutes + ") minutes. Maybe 10.");
    }
  }

  /** A diary in whose journal nothing has been written, and that has no key. */
  public Diary(
      ZoneId zone,
      int startEveryMinutes,
      List<Clinician> clinicians,
      List<Chair> chairs,
      List<TimeOff> closed,
      SterileStock stock,
      List<CourseRequest> courses,
      List<Booking> bookings,
      List<BusyTime> busy,
      List<CalendarLink> calendars) {
    this(
        zone,
        startEveryMinutes,
        clinicians,
        chairs,
        closed,
        stock,
        courses,
        bookings,
        busy,
        calendars,
        List.of(),
        null,
        null);
  }

  public Optional<Clinician> clinician(String id) {
    return clinicians.stream().filter(one -> one.id().equals(id)).findFirst();
  }

  public Optional<Chair> chair(String id) {
    return chairs.stream().filter(one -> one.id().equals(id)).findFirst();
  }

  public Optional<CourseRequest> course(String caseName) {
    return courses.stream().filter(one -> one.caseName().equals(caseName)).findFirst();
  }

  public Optional<Booking> booking(String id) {
    return bookings.stream().filter(one -> one.id().equals(id)).findFirst();
  }

  /** The booking that stands for a visit: neither cancelled nor missed. */
  public Optional<Booking> standing(String caseName, int visit) {
    return bookings.stream()
        .filter(one -> one.status().takesTime())
        .filter(one -> one.caseName().equals(caseName) && one.visit() == visit)
        .findFirst();
  }

  /** The visits of a course that have no standing booking, in order; none once it has ended. */
  public List<VisitRequest> unbooked(CourseRequest course) {
    if (course.ended() != null) {
      return List.of();
    }
    Set<Integer> standing =
        bookings.stream()
            .filter(one -> one.status().takesTime() && one.caseName().equals(course.caseName()))
            .map(Booking::visit)
            .collect(Collectors.toSet());
    return course.visits().stream().filter(visit -> !standing.contains(visit.number())).toList();
  }

  /** Of each course that has any, by case, the visits that have no standing booking. */
  public Map<String, List<VisitRequest>> unbooked() {
    Map<String, Set<Integer>> standing = new HashMap<>();
    for (Booking booking : bookings) {
      if (booking.status().takesTime()) {
        standing.computeIfAbsent(booking.caseName(), none -> new HashSet<>()).add(booking.visit());
      }
    }
    Map<String, List<VisitRequest>> unbooked = new LinkedHashMap<>();
    for (CourseRequest course : courses) {
      Set<Integer> theirs = standing.getOrDefault(course.caseName(), Set.of());
      List<VisitRequest> open =
          course.visits().stream().filter(visit -> !theirs.contains(visit.number())).toList();
      if (course.ended() == null && !open.isEmpty()) {
        unbooked.put(course.caseName(), open);
      }
    }
    return unbooked;
  }

  /**
   * An id for a new booking of a visit, such as {@code K-1042/2}, or {@code K-1042/2/2} later; none
   * that was ever given, since calendars may hold what has been taken back as called off.
   */
  public String freshId(String caseName, int visit) {
    String first = caseName + "/" + visit;
    String id = first;
    for (int again = 2; booking(id).isPresent() || given(id); again++) {
      id = first + "/" + again;
    }
    return id;
  }

  private boolean given(String id) {
    return journal.stream()
        .flatMap(entry -> entry.bookings().stream())
        .anyMatch(change -> change.any().id().equals(id));
  }
}
