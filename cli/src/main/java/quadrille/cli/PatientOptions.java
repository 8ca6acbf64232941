package quadrille.cli;

import java.time.DayOfWeek;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.diary.book.Availability;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.calendar.CalendarReader;
import quadrille.diary.calendar.Interval;
import quadrille.document.InvalidDocumentException;

/** When a patient can come and would like to; in place of what the diary says of their course. */
final class PatientOptions {

  private static final Pattern HOURS =
      Pattern.compile("([a-z,-]+) (\\d\\d:\\d\\d)-(\\d\\d:\\d\\d)");
  private static final List<String> DAYS = List.of("mon", "tue", "wed", "thu", "fri", "sat", "sun");

  @Option(
      names = "--can",
      order = 20,
      paramLabel = "HOURS",
      description = "The patient can come only then: \"mon-wed,fri 08:00-12:00\"; may be repeated.")
  private List<String> can = List.of();

  @Option(
      names = "--cannot",
      order = 21,
      paramLabel = "DATES",
      description = "A day or days that do not suit: 2026-03-05 or 2026-03-05/2026-03-12.")
  private List<String> cannot = List.of();

  @Option(
      names = "--patient-ics",
      order = 21,
      paramLabel = "FILE",
      description =
          "The patient's own calendar (iCalendar): what it has is when they cannot come; may be"
              + " repeated.")
  private List<String> calendars = List.of();

  private final List<byte[]> texts = new ArrayList<>();

  @Option(
      names = "--likes",
      order = 22,
      paramLabel = "HOURS",
      description = "The patient would rather come then.")
  private List<String> likes = List.of();

  @Option(
      names = "--likes-clinician",
      order = 23,
      paramLabel = "ID",
      description = "The patient would rather see this clinician.")
  @Nullable
  private String clinician;

  /**
   * Checks that there is one patient of whom this can be said.
   *
   * @param plans how many plans are named
   */
  void check(int plans) throws StopException {
    boolean said =
        !can.isEmpty()
            || !cannot.isEmpty()
            || !likes.isEmpty()
            || clinician != null
            || !calendars.isEmpty();
    if (said && plans != 1) {
      throw StopException.usage(
          "--can, --cannot, --patient-ics, --likes and --likes-clinician: are for one plan at a"
              + " time.");
    }
  }

  /** The patient's calendars; the command reads them. */
  List<String> inputs() {
    return calendars;
  }

  /** Reads the patient's calendars; what they say is asked of {@link #taken}. */
  void read(Documents documents) throws StopException {
    for (String file : calendars) {
      texts.add(documents.bytes(file));
    }
  }

  /**
   * What the patient's calendars have within a span.
   *
   * @param zone the practice's, for whole days and times without a zone
   * @param command which says what had to be taken for something
   * @return nothing where no calendar was named
   * @throws InvalidDocumentException with the faults of all of them
   */
  Optional<List<Interval>> taken(ZoneId zone, Interval within, BaseCommand command)
      throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    List<Gathering.Read<CalendarReader.Reading>> readings = new ArrayList<>();
    for (int i = 0; i < calendars.size(); i++) {
      String name = Documents.name(calendars.get(i));
      byte[] text = texts.get(i);
      readings.add(gathering.read(() -> CalendarReader.read(name, text, zone, within)));
    }
    gathering.check();
    List<Interval> taken = new ArrayList<>();
    for (int i = 0; i < calendars.size(); i++) {
      String name = Documents.name(calendars.get(i));
      taken.addAll(readings.get(i).get().busy());
      readings.get(i).get().notes().forEach(note -> command.message(name + ": " + note));
    }
    return calendars.isEmpty() ? Optional.empty() : Optional.of(taken);
  }

  /** What was known, with what is said now: hours take the place of hours, days off add up. */
  Availability availability(Optional<CourseRequest> known) throws StopException {
    Availability before = known.map(CourseRequest::availability).orElse(Availability.ANY);
    List<TimeOff> off = new ArrayList<>(before.off());
    for (String dates : cannot) {
      off.add(dates(dates));
    }
    return new Availability(
        can.isEmpty() ? before.weekly() : hours("--can", can), off, before.busy());
  }

  Preferences preferences(Diary diary, Optional<CourseRequest> known) throws StopException {
    Preferences before = known.map(CourseRequest::preferences).orElse(Preferences.NONE);
    if (clinician != null && diary.clinician(clinician).isEmpty()) {
      throw StopException.usage(
          "--likes-clinician: the diary has no \""
              + clinician
              + "\"; it has "
              + String.join(", ", diary.clinicians().stream().map(who -> who.id()).toList())
              + ".");
    }
    return new Preferences(
        likes.isEmpty() ? before.times() : hours("--likes", likes),
        clinician == null ? before.clinician() : clinician);
  }

  private static List<WeeklyHours> hours(String option, List<String> texts) throws StopException {
    List<WeeklyHours> hours = new ArrayList<>();
    for (String text : texts) {
      Matcher match = HOURS.matcher(text.strip().toLowerCase(Locale.ROOT));
      try {
        if (match.matches()) {
          LocalTime from = LocalTime.parse(match.group(2));
          LocalTime to = LocalTime.parse(match.group(3));
          List<DayOfWeek> days = days(match.group(1));
          if (from.isBefore(to) && !days.isEmpty()) {
            hours.add(new WeeklyHours(days, from, to, List.of()));
            continue;
          }
        }
      } catch (DateTimeParseException wrong) {
        // Said below, as everything else that is wrong with it.
      }
      throw StopException.usage(
          option + ": is \"" + text + "\"; hours such as \"mon-wed,fri 08:00-12:00\" are allowed.");
    }
    return hours;
  }

  /** The days of a list of days and spans of days; none where it is wrong. */
  private static List<DayOfWeek> days(String text) {
    TreeSet<DayOfWeek> days = new TreeSet<>();
    for (String part : text.split(",", -1)) {
      String[] ends = part.split("-", -1);
      int first = DAYS.indexOf(ends[0]);
      int last = DAYS.indexOf(ends[ends.length - 1]);
      if (ends.length > 2 || first < 0 || last < first) {
        return List.of();
      }
      for (int day = first; day <= last; day++) {
        days.add(DayOfWeek.of(day + 1));
      }
    }
    return List.copyOf(days);
  }

  private static TimeOff dates(String text) throws StopException {
    Days days = Days.of("--cannot", text);
    return new TimeOff(days.first(), days.last(), null, null, null);
  }
}
