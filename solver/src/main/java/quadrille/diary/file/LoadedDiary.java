package quadrille.diary.file;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.CalendarLink;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Journal;
import quadrille.diary.calendar.CalendarReader;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Returns;
import quadrille.document.InvalidDocumentException;

/**
 * A diary as read from disk.
 *
 * @param diary as the file has it, without what its calendars take
 * @param revision tells this state of the diary and its calendars from any other
 * @param calendars each calendar that it names, by the name that it has there
 */
public record LoadedDiary(Diary diary, String revision, Map<String, CalendarReader> calendars) {

  public LoadedDiary {
    calendars = Collections.unmodifiableMap(new LinkedHashMap<>(calendars));
  }

  /** The same at a moment: what was held until then or before is called off. */
  public LoadedDiary asOf(Instant now) {
    return with(Journal.asOf(diary, now));
  }

  /** Another diary with the same calendars beside it. */
  public LoadedDiary with(Diary other) {
    return new LoadedDiary(other, revision, calendars);
  }

  /** The span of whole days, both included, in a diary's zone. */
  public static Interval days(Diary diary, LocalDate first, LocalDate last) {
    return new Interval(
        first.atStartOfDay(diary.zone()).toInstant(),
        last.plusDays(1).atStartOfDay(diary.zone()).toInstant());
  }

  /**
   * The diary with what its calendars take within a span.
   *
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public Diary over(Interval within) throws InvalidDocumentException {
    List<BusyTime> busy = new ArrayList<>(own());
    Returns returns = new Returns();
    for (CalendarLink link : diary.calendars()) {
      for (Interval time : calendar(link).within(within, returns).busy()) {
        busy.add(new BusyTime(time, link.clinician(), link.chair(), List.of(), link.file()));
      }
    }
    return diary.withBusy(busy);
  }

  /**
   * What had to be taken for something in the calendars, sentences for people.
   *
   * @throws InvalidDocumentException with every fault of a calendar
   */
  public List<String> notes() throws InvalidDocumentException {
    List<String> notes = new ArrayList<>();
    for (CalendarLink link : diary.calendars()) {
      calendar(link).notes().forEach(note -> notes.add(link.file() + ": " + note));
    }
    return notes.stream().distinct().toList();
  }

  private List<BusyTime> own() {
    return diary.busy().stream().filter(busy -> busy.calendar() == null).toList();
  }

  private CalendarReader calendar(CalendarLink link) {
    CalendarReader calendar = calendars.get(link.file());
    if (calendar == null) {
      throw new IllegalArgumentException(
          "The calendar (" + link.file() + ") has not been read with the diary.");
    }
    return calendar;
  }
}
