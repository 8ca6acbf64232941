package quadrille.cli;

import java.time.DayOfWeek;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.desk.PatientWishes;
import quadrille.document.FilesTogether;

/** When a patient can come and would like to; a group, and so null where nothing is said. */
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

  /** The patient's calendars. */
  List<String> inputs() {
    return calendars;
  }

  /** What is said, with the patient's calendars read. */
  PatientWishes wishes(Documents documents) throws StopException {
    List<TimeOff> off = new ArrayList<>();
    for (String dates : cannot) {
      off.add(dates(dates));
    }
    List<PatientWishes.Calendar> read = new ArrayList<>();
    FilesTogether together = documents.together();
    for (String file : calendars) {
      read.add(new PatientWishes.Calendar(Documents.name(file), documents.bytes(file, together)));
    }
    return new PatientWishes(hours("--can", can), off, read, hours("--likes", likes), clinician);
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
