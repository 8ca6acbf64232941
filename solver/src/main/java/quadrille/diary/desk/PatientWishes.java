package quadrille.diary.desk;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Availability;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.calendar.CalendarReader;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Returns;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.Course;

/**
 * When a patient can come and would like to, as said now; what the diary knows of their course
 * stays beside it.
 *
 * @param can only then; empty where nothing is said
 * @param cannot days that do not suit, beside those that are known
 * @param calendars their own, in which they have something else
 * @param likes would rather come then; empty where nothing is said
 * @param clinician id of whom they would rather see; null where nothing is said
 */
public record PatientWishes(
    List<WeeklyHours> can,
    List<TimeOff> cannot,
    List<Calendar> calendars,
    List<WeeklyHours> likes,
    @Nullable String clinician) {

  /** Nothing is said. */
  public static final PatientWishes NONE =
      new PatientWishes(List.of(), List.of(), List.of(), List.of(), null);

  public PatientWishes {
    can = List.copyOf(can);
    cannot = List.copyOf(cannot);
    calendars = List.copyOf(calendars);
    likes = List.copyOf(likes);
  }

  /**
   * A patient's own calendar.
   *
   * @param name for faults and notes
   * @param bytes iCalendar
   */
  public record Calendar(String name, byte[] bytes) {}

  /** What the calendars say of a span: when the patient is busy, and what was taken for what. */
  record Reading(List<Interval> busy, List<Note> notes) {}

  /**
   * That something in a calendar had to be taken for something.
   *
   * @param calendar its name
   * @param note the calendar reader's sentence
   */
  public record Note(String calendar, String note) {}

  /** Reads the calendars, the faults of all of them at once. */
  Reading reading(Diary diary, Interval within) throws InvalidDocumentException {
    List<Interval> busy = new ArrayList<>();
    List<Note> notes = new ArrayList<>();
    Set<Fault> faults = new LinkedHashSet<>();
    Returns returns = new Returns();
    for (Calendar calendar : calendars) {
      try {
        CalendarReader.Reading reading =
            new CalendarReader(calendar.name(), calendar.bytes(), diary.zone())
                .within(within, returns);
        busy.addAll(reading.busy());
        reading.notes().forEach(note -> notes.add(new Note(calendar.name(), note)));
      } catch (InvalidDocumentException invalid) {
        faults.addAll(invalid.faults());
      }
    }
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(List.copyOf(faults));
    }
    return new Reading(busy, notes);
  }

  /**
   * What a plan asks for; a course that waits already keeps what its patient said, and its day.
   *
   * @param first day on which something may be booked
   */
  CourseRequest request(Diary diary, Course plan, LocalDate first) {
    Optional<CourseRequest> known = diary.course(plan.caseName());
    CourseRequest request =
        CourseRequest.of(
            plan,
            diary.stock(),
            known.map(CourseRequest::asked).orElse(first),
            known.map(CourseRequest::earliest).orElse(first),
            over(known.map(CourseRequest::availability).orElse(Availability.ANY)),
            over(known.map(CourseRequest::preferences).orElse(Preferences.NONE)),
            diary.injectorMargin());
    return request.withLongerGaps(known.map(CourseRequest::longerGaps).orElse(null));
  }

  /** A course that waits, with what its patient says now. */
  CourseRequest over(CourseRequest waiting) {
    return waiting
        .withAvailability(over(waiting.availability()))
        .withPreferences(over(waiting.preferences()));
  }

  /** Hours take the place of hours, days off add up. */
  private Availability over(Availability before) {
    List<TimeOff> off = new ArrayList<>(before.off());
    off.addAll(cannot);
    return new Availability(can.isEmpty() ? before.weekly() : can, off, before.busy());
  }

  private Preferences over(Preferences before) {
    return new Preferences(
        likes.isEmpty() ? before.times() : likes,
        clinician == null ? before.clinician() : clinician);
  }
}
