package quadrille.cli.serve;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
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
import quadrille.cli.render.JournalWords;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.Signature;
import quadrille.diary.book.WallTime;
import quadrille.diary.book.Why;
import quadrille.document.Node;

/**
 * What somebody at the desk sent.
 *
 * @param fields as typed
 * @param faults what is wrong with them, lines; grows as they are read
 */
record DeskForm(Map<String, String> fields, List<String> faults) {

  /** As browsers write a time of day. */
  static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  DeskForm(Map<String, String> fields) {
    this(fields, new ArrayList<>());
  }

  String field(String name) {
    return fields.getOrDefault(name, "");
  }

  void fault(String line) {
    faults.add(line);
  }

  boolean right() {
    return faults.isEmpty();
  }

  /**
   * Who says it, and why.
   *
   * @param reason whether a reason is needed
   */
  @Nullable Signature signature(Instant now, boolean reason) {
    String by = field("by").strip();
    String note = field("note").strip();
    @Nullable Why why =
        Why.SAID.stream()
            .filter(one -> one.word().equals(field("because")))
            .findFirst()
            .orElse(null);
    if (!Node.isPlain(by, Signature.LONGEST)
        || !note.isEmpty() && !Node.isPlain(note, Signature.LONGEST)) {
      fault("Say who does it, and keep the note to " + Signature.LONGEST + " letters on one line.");
    } else if (reason && why == null) {
      fault("Say why.");
    }
    return right() ? new Signature(by, now, why, note.isEmpty() ? null : note) : null;
  }

  /** A day and a time by the clock on the practice's wall. */
  @Nullable Instant moment(ZoneId zone, String day, String time) {
    try {
      LocalDate date = LocalDate.parse(field(day));
      if (WallTime.holds(date)) {
        WallTime wall = WallTime.of(date.atTime(LocalTime.parse(field(time), TIME)), zone);
        if (wall instanceof WallTime.Once once) {
          return once.moment();
        }
        fault("The clocks change at that time; take another.");
        return null;
      }
    } catch (DateTimeException noTime) {
      // Said below.
    }
    fault("Say a day and a time, such as 2026-03-09 and 10:30.");
    return null;
  }

  /** A day. */
  @Nullable LocalDate day(String name, LocalDate otherwise) {
    try {
      LocalDate day = field(name).isEmpty() ? otherwise : LocalDate.parse(field(name));
      if (WallTime.holds(day)) {
        return day;
      }
    } catch (DateTimeException noDay) {
      // Said below.
    }
    fault("Say a day, such as 2026-03-09.");
    return null;
  }

  /** Who may be at the desk. */
  static List<String> people(Diary diary) {
    return Stream.concat(
            diary.clinicians().stream().map(Clinician::name),
            diary.journal().stream().map(JournalEntry::by))
        .distinct()
        .toList();
  }

  /** Who it is now, or was last. */
  String by(Diary diary) {
    return fields.getOrDefault("by", last(diary).map(JournalEntry::by).orElse(""));
  }

  /** That the diary is another one by now, and what was done last. */
  static List<String> changed(Diary now) {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Nothing was written: the diary has been changed since it was on your screen. It is shown"
            + " as it is now; look, and say it again.");
    last(now)
        .ifPresent(
            last -> {
              lines.add("The last: " + JournalWords.title(last, now));
              lines.addAll(JournalWords.lines(last, now));
            });
    return lines;
  }

  private static Optional<JournalEntry> last(Diary diary) {
    return diary.journal().stream().reduce((a, b) -> b);
  }

  static List<DiaryRoomPage.Choice> clinicians(Diary diary) {
    return diary.clinicians().stream()
        .map(one -> new DiaryRoomPage.Choice(one.id(), one.name()))
        .toList();
  }
}
