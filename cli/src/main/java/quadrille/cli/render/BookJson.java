package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.StretchedGap;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Remedy;
import quadrille.diary.booking.Taking;
import quadrille.diary.desk.BookingAnswer;
import quadrille.diary.desk.CarriedOn;

/** Offers, as JSON. */
public final class BookJson {

  private static final String SCHEMA = "quadrille/offers/1";

  private BookJson() {}

  /**
   * Renders offers.
   *
   * @param taken the number of the one offer that has been booked; null where none has
   */
  public static String of(BookingAnswer.Offered offered, @Nullable Integer taken) {
    Diary diary = offered.asked().whole();
    List<Offer> offers = taken == null ? offered.offers() : List.of(offered.offer(taken));
    ObjectNode root = Json.object();
    root.put("schema", SCHEMA);
    root.put("seen", offered.code());
    if (taken != null) {
      root.put("taken", taken);
    }
    ArrayNode list = root.putArray("offers");
    for (int i = 0; i < offers.size(); i++) {
      Offer offer = offers.get(i);
      ObjectNode node = list.addObject().put("offer", taken == null ? i + 1 : taken);
      ArrayNode because = node.putArray("because");
      offer.because().forEach(merit -> because.add(BookWords.merit(merit)));
      ArrayNode visits = node.putArray("visits");
      for (OfferedVisit visit : offer.visits()) {
        ObjectNode one = visits.addObject();
        one.put("case", visit.caseName())
            .put("visit", visit.visit())
            .put("start", DiaryWriter.moment(visit.start(), diary.zone()))
            .put("end", DiaryWriter.moment(visit.end(), diary.zone()))
            .put("minutes", visit.minutes())
            .put("clinician", visit.clinician())
            .put("chair", visit.chair())
            .put("status", Taking.status(diary.course(visit.caseName()).orElse(null)).word());
        DiaryJson.calls(one, visit.injectors(), visit.start(), diary.zone());
      }
      stretched(node, offer, diary);
      if (!offer.because().isEmpty()) {
        node.putObject("reevaluate")
            .put("from", offer.reevaluateFrom().toString())
            .put("to", offer.reevaluateTo().toString());
        ObjectNode points = node.putObject("points");
        offer.points().forEach((term, cost) -> points.put(BookWords.term(term), cost));
      }
    }
    if (!offered.asked().restated().isEmpty()) {
      ArrayNode restated = root.putArray("restated");
      for (CarriedOn.Restated one : offered.asked().restated()) {
        restated.addObject().put("id", one.booking().id()).put("status", one.now().word());
      }
    }
    ArrayNode without = root.putArray("withoutPlace");
    offered.left().forEach(without::add);
    if (offered.cutShort()) {
      root.put("cutShort", true);
    }
    return Json.write(root);
  }

  /** Gaps that are longer than their plan allows; nothing where there are none. */
  private static void stretched(ObjectNode node, Offer offer, Diary diary) {
    List<StretchedGap> gaps = BookWords.stretchedGaps(offer, diary);
    if (!gaps.isEmpty()) {
      ArrayNode list = node.putArray("longerGaps");
      for (StretchedGap gap : gaps) {
        list.addObject()
            .put("case", gap.caseName())
            .put("visit", gap.visit())
            .put("after", gap.before())
            .put("days", gap.days())
            .put("longest", gap.usual())
            .put("allowedBy", gap.allowedBy());
      }
    }
  }

  /** Says that there is no feasible way, and what would help. */
  public static String noWay(BookingAnswer.NoWay noWay) {
    ObjectNode root = Json.object();
    root.put("schema", SCHEMA);
    root.putArray("offers");
    ArrayNode changes = root.putArray("remedies");
    for (Remedy remedy : noWay.remedies()) {
      ZoneId zone = noWay.asked().own().zone();
      BookWords.Help help = BookWords.help(remedy, zone, noWay.asked().order().first().getYear());
      change(
          changes.addObject().put("rule", help.rule()).put("change", help.change()), remedy, zone);
    }
    return Json.write(root);
  }

  private static void change(ObjectNode node, Remedy remedy, ZoneId zone) {
    if (remedy instanceof Remedy.LaterEnd later) {
      node.put("kind", "later-end").put("until", later.until().toString());
    } else if (remedy instanceof Remedy.LongerGaps longer) {
      node.put("kind", "longer-gaps").put("days", longer.days());
    } else if (remedy instanceof Remedy.LongerDeadlines longer) {
      node.put("kind", "longer-deadlines").put("days", longer.days());
    } else if (remedy instanceof Remedy.ShorterGaps shorter) {
      node.put("kind", "shorter-gaps").put("days", shorter.days());
    } else if (remedy instanceof Remedy.PatientComes comes) {
      ArrayNode starts = node.put("kind", "patient-comes").putArray("starts");
      comes.starts().forEach(start -> starts.add(DiaryWriter.moment(start, zone)));
    } else if (remedy instanceof Remedy.AnotherInjector) {
      node.put("kind", "another-injector");
    } else if (remedy instanceof Remedy.OneMoreSet more) {
      node.put("kind", "one-more-set").put("set", more.set());
    } else if (remedy instanceof Remedy.OneMoreChair) {
      node.put("kind", "one-more-chair");
    } else {
      node.put("kind", remedy instanceof Remedy.MovingHeld ? "moving-held" : "moving-others");
    }
  }
}
