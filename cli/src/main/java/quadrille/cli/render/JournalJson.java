package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.Why;

/** A diary's journal as JSON. */
public final class JournalJson {

  private JournalJson() {}

  /**
   * Renders entries.
   *
   * @param diary in which they stand
   */
  public static String of(Diary diary, List<JournalEntry> entries) {
    ZoneId zone = diary.zone();
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/journal/1").put("zone", zone.getId());
    ArrayNode list = root.putArray("entries");
    for (JournalEntry entry : entries) {
      ObjectNode node = list.addObject();
      node.put("number", entry.number())
          .put("at", DiaryWriter.moment(entry.at(), zone))
          .put("by", entry.by())
          .put("did", entry.did().word());
      Why because = entry.because();
      if (because != null) {
        node.put("because", because.word());
      }
      if (entry.note() != null) {
        node.put("note", entry.note());
      }
      if (entry.undoes() != 0) {
        node.put("undoes", entry.undoes());
      }
      ArrayNode bookings = node.putArray("bookings");
      for (JournalEntry.BookingChange change : entry.bookings()) {
        ObjectNode one = bookings.addObject();
        Booking any = change.any();
        one.put("id", any.id()).put("case", any.caseName()).put("visit", any.visit());
        Why why = change.because();
        if (why != null) {
          one.put("because", why.word());
        }
        place(one, "from", change.from(), zone);
        place(one, "to", change.to(), zone);
      }
      ArrayNode courses = node.putArray("courses");
      entry.courses().forEach(change -> courses.add(change.caseName()));
      ArrayNode absences = node.putArray("absences");
      for (JournalEntry.Absence absence : entry.absences()) {
        ObjectNode one = absences.addObject();
        if (absence.clinician() != null) {
          one.put("clinician", absence.clinician());
        }
        one.put("first", absence.off().first().toString())
            .put("last", absence.off().last().toString())
            .put("taken", absence.taken());
      }
    }
    return Json.write(root);
  }

  private static void place(ObjectNode node, String key, @Nullable Booking booking, ZoneId zone) {
    if (booking != null) {
      ObjectNode place = node.putObject(key);
      place
          .put("start", DiaryWriter.moment(booking.start(), zone))
          .put("end", DiaryWriter.moment(booking.end(), zone))
          .put("clinician", booking.clinician())
          .put("chair", booking.chair())
          .put("status", booking.status().word());
      DiaryJson.calls(place, booking.injectors(), booking.start(), zone);
      Instant until = booking.until();
      if (until != null) {
        place.put("until", DiaryWriter.moment(until, zone));
      }
    }
  }
}
