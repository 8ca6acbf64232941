package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.desk.CallList;

/** Whom to call or remind, as JSON. */
public final class CallJson {

  private CallJson() {}

  /** Renders the list. */
  public static String of(Diary diary, List<CallList.Call> calls) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/calls/1").put("zone", diary.zone().getId());
    ArrayNode list = root.putArray("calls");
    for (CallList.Call call : calls) {
      ObjectNode node = list.addObject();
      node.put("day", call.day().toString())
          .put("purpose", call.purpose().name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .put("case", call.caseName())
          .put("visit", call.visit());
      Booking booking = call.booking();
      if (booking != null) {
        node.put("booking", booking.id())
            .put("start", DiaryWriter.moment(booking.start(), diary.zone()))
            .put("clinician", booking.clinician());
      }
      LocalDate by = call.by();
      if (by != null) {
        node.put("by", by.toString());
      }
    }
    return Json.write(root);
  }
}
