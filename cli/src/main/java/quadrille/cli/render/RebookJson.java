package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneId;
import quadrille.diary.book.Booking;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Rebooking;

/** What moves after changes, as JSON. */
public final class RebookJson {

  private RebookJson() {}

  /**
   * Renders the moves.
   *
   * @param written whether the diary has been replaced
   */
  public static String of(Rebooking rebooking, boolean written) {
    ZoneId zone = rebooking.diary().zone();
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/rebooking/1").put("written", written);
    ArrayNode moves = root.putArray("moves");
    for (Rebooking.Move move : rebooking.moves()) {
      ObjectNode node = moves.addObject();
      node.put("case", move.from().caseName()).put("visit", move.from().visit());
      node.put("because", BookWords.because(move.because(), rebooking.diary()));
      place(node.putObject("from"), move.from(), zone);
      place(node.putObject("to"), move.to(), zone);
    }
    ArrayNode left = root.putArray("withoutPlace");
    for (Rebooking.Lost lost : rebooking.left()) {
      ObjectNode node = left.addObject();
      node.put("case", lost.booking().caseName()).put("visit", lost.booking().visit());
      node.put("because", BookWords.because(lost.because(), rebooking.diary()));
      place(node.putObject("from"), lost.booking(), zone);
    }
    if (!rebooking.broken().isEmpty()) {
      ArrayNode broken = root.putArray("notFinishedInTime");
      for (Rebooking.Broken one : rebooking.broken()) {
        broken
            .addObject()
            .put("case", one.caseName())
            .put("from", one.deadline().from())
            .put("to", one.deadline().to())
            .put("days", one.deadline().days())
            .put("by", one.by().toString());
      }
    }
    ArrayNode freed = root.putArray("forThoseWhoWait");
    for (OfferedVisit visit : rebooking.freed()) {
      freed
          .addObject()
          .put("case", visit.caseName())
          .put("visit", visit.visit())
          .put("start", DiaryWriter.moment(visit.start(), zone))
          .put("end", DiaryWriter.moment(visit.end(), zone))
          .put("clinician", visit.clinician())
          .put("chair", visit.chair());
    }
    return Json.write(root);
  }

  private static void place(ObjectNode node, Booking booking, ZoneId zone) {
    node.put("booking", booking.id())
        .put("start", DiaryWriter.moment(booking.start(), zone))
        .put("end", DiaryWriter.moment(booking.end(), zone))
        .put("clinician", booking.clinician())
        .put("chair", booking.chair());
    DiaryJson.calls(node, booking.injectors(), booking.start(), zone);
  }
}
