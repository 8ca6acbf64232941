package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Remedy;

/** Offers, as JSON. */
public final class BookJson {

  private static final String SCHEMA = "quadrille/offers/1";

  private BookJson() {}

  /**
   * Renders offers.
   *
   * @param left cases without a place
   * @param code with which an offer is taken
   * @param taken the number of the one offer, if it has been booked
   */
  public static String of(
      Diary diary, List<Offer> offers, List<String> left, String code, @Nullable Integer taken) {
    ObjectNode root = Json.object();
    root.put("schema", SCHEMA);
    root.put("seen", code);
    if (taken != null) {
      root.put("taken", taken);
    }
    ArrayNode list = root.putArray("offers");
    for (int i = 0; i < offers.size(); i++) {
      Offer offer = offers.get(i);
      ObjectNode node = list.addObject().put("offer", taken == null ? i + 1 : taken);
      ArrayNode because = node.putArray("because");
      offer.because().forEach(merit -> because.add(merit.word()));
      ArrayNode visits = node.putArray("visits");
      for (OfferedVisit visit : offer.visits()) {
        visits
            .addObject()
            .put("case", visit.caseName())
            .put("visit", visit.visit())
            .put("start", DiaryWriter.moment(visit.start(), diary.zone()))
            .put("end", DiaryWriter.moment(visit.end(), diary.zone()))
            .put("minutes", visit.minutes())
            .put("clinician", visit.clinician())
            .put("chair", visit.chair());
      }
      if (!offer.because().isEmpty()) {
        node.putObject("reevaluate")
            .put("from", offer.reevaluateFrom().toString())
            .put("to", offer.reevaluateTo().toString());
        ObjectNode points = node.putObject("points");
        offer.points().forEach((term, cost) -> points.put(term.word(), cost));
      }
    }
    ArrayNode without = root.putArray("withoutPlace");
    left.forEach(without::add);
    return Json.write(root);
  }

  /** Says that there is no legal way, and what would help. */
  public static String noWay(List<Remedy> remedies) {
    ObjectNode root = Json.object();
    root.put("schema", SCHEMA);
    root.putArray("offers");
    ArrayNode changes = root.putArray("remedies");
    for (Remedy remedy : remedies) {
      changes.addObject().put("rule", remedy.rule()).put("change", remedy.change());
    }
    return Json.write(root);
  }
}
