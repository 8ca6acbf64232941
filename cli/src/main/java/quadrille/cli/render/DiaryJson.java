package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.calendar.Interval;

/** A week of a diary as JSON. */
public final class DiaryJson {

  private DiaryJson() {}

  /**
   * Renders a week.
   *
   * @param notes what had to be taken for something in calendars
   */
  public static String of(Diary diary, DiaryWeek week, List<String> notes) {
    ZoneId zone = diary.zone();
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/week/1");
    root.put("zone", zone.getId());
    root.put("monday", week.monday().toString());
    ArrayNode days = root.putArray("days");
    for (DiaryWeek.Day day : week.days()) {
      ObjectNode node = days.addObject();
      node.put("date", day.date().toString());
      ArrayNode people = node.putArray("clinicians");
      for (DiaryWeek.Person person : day.people()) {
        ObjectNode one = people.addObject();
        one.put("clinician", person.clinician().id());
        spans(one.putArray("working"), person.working(), zone);
        spans(one.putArray("free"), person.free(), zone);
      }
      ArrayNode bookings = node.putArray("bookings");
      day.bookings().forEach(booking -> booking(bookings.addObject(), diary, booking));
    }
    ArrayNode courses = root.putArray("courses");
    for (DiaryWeek.Next next : week.courses()) {
      ObjectNode node = courses.addObject();
      node.put("case", next.course().caseName());
      Booking booked = next.booked();
      if (booked != null) {
        booking(node.putObject("booked"), diary, booked);
      }
      VisitRequest visit = next.visit();
      if (visit != null) {
        ObjectNode open = node.putObject("next");
        open.put("visit", visit.number());
        open.put("minutes", visit.minutes());
        ArrayNode needs = open.putArray("needs");
        visit.needs().forEach(need -> needs.add(need.word()));
        open.put("from", next.from().toString());
        LocalDate to = next.to();
        if (to != null) {
          open.put("to", to.toString());
        }
      }
    }
    ArrayNode said = root.putArray("notes");
    notes.forEach(said::add);
    return Json.write(root);
  }

  /** Who comes only to inject; nothing where nobody does. */
  static void calls(ObjectNode node, List<InjectorCall> calls, Instant start, ZoneId zone) {
    if (!calls.isEmpty()) {
      ArrayNode injections = node.putArray("injections");
      for (InjectorCall call : calls) {
        injections
            .addObject()
            .put("clinician", call.clinician())
            .put("from", DiaryWriter.moment(call.time(start).start(), zone))
            .put("to", DiaryWriter.moment(call.time(start).end(), zone));
      }
    }
  }

  private static void spans(ArrayNode array, List<Interval> spans, ZoneId zone) {
    for (Interval span : spans) {
      ObjectNode node = array.addObject();
      node.put("start", DiaryWriter.moment(span.start(), zone));
      node.put("end", DiaryWriter.moment(span.end(), zone));
    }
  }

  private static void booking(ObjectNode node, Diary diary, Booking booking) {
    ZoneId zone = diary.zone();
    node.put("id", booking.id());
    node.put("case", booking.caseName());
    node.put("visit", booking.visit());
    Json.stopQuestions(node, DiaryWords.asked(diary, booking));
    node.put("start", DiaryWriter.moment(booking.start(), zone));
    node.put("end", DiaryWriter.moment(booking.end(), zone));
    node.put("clinician", booking.clinician());
    node.put("chair", booking.chair());
    calls(node, booking.injectors(), booking.start(), zone);
    node.put("status", booking.status().word());
  }
}
