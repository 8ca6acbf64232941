package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import quadrille.treatment.calibration.Calibration;
import quadrille.treatment.calibration.Estimate;
import quadrille.treatment.calibration.Forecast;

/** What was learned of a practice's times, as JSON. */
public final class CalibrationJson {

  private CalibrationJson() {}

  /** Renders a calibration. */
  public static String of(Calibration calibration) {
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/calibration/1");
    root.put("courses", calibration.courses());
    root.put("visits", calibration.visits());
    ArrayNode times = root.putArray("times");
    for (Calibration.TimeLearned one : calibration.times()) {
      ObjectNode node = times.addObject();
      node.put("time", CalibrationWords.time(one.time()));
      node.put("fileSeconds", Json.round(one.time().seconds().value(), 3));
      node.put("visits", one.visits());
      estimate(node.putObject("multiplier"), one.multiplier());
    }
    ArrayNode clinicians = root.putArray("clinicians");
    for (Calibration.ClinicianLearned one : calibration.clinicians()) {
      ObjectNode node = clinicians.addObject();
      node.put("clinician", one.name());
      node.put("visits", one.visits());
      estimate(node.putObject("speed"), one.speed());
      if (one.learning() != null) {
        node.putObject("learning")
            .put("visits", one.learning().visits())
            .put("first", Json.round(one.learning().first(), 4))
            .put("last", Json.round(one.learning().last(), 4));
      }
    }
    ArrayNode together = root.putArray("notToldApart");
    for (Calibration.Together one : calibration.together()) {
      together
          .addArray()
          .add(CalibrationWords.time(one.one()))
          .add(CalibrationWords.time(one.other()));
    }
    estimate(root.putObject("spreadSigma"), calibration.spread());
    forecast(root.putObject("forecast"), calibration.forecast());
    ArrayNode outliers = root.putArray("outliers");
    for (Calibration.Outlier one : calibration.outliers()) {
      name(outliers.addObject(), one.visit())
          .put("minutes", Json.round(one.minutes(), 1))
          .put("expectedMinutes", Json.round(one.expectedMinutes(), 1));
    }
    ArrayNode unused = root.putArray("unused");
    for (Calibration.Unused one : calibration.unused()) {
      name(unused.addObject(), one.visit()).put("why", CalibrationWords.why(one.why()));
    }
    return Json.write(root);
  }

  private static void forecast(ObjectNode node, Forecast forecast) {
    node.put("visits", forecast.visits());
    node.put("inTime", forecast.inTime());
    node.put("low", Json.round(forecast.low(), 4));
    node.put("high", Json.round(forecast.high(), 4));
    node.put("certainty", Json.round(forecast.certainty(), 4));
    node.put("promised", Json.round(forecast.promised(), 4));
    node.put("calibrated", Json.round(forecast.calibrated(), 4));
    node.put("chanceOfFewer", Json.round(forecast.chanceOfFewer(), 4));
    node.put("chanceOfMore", Json.round(forecast.chanceOfMore(), 4));
    node.put("fewerThanPromised", forecast.fewerThanPromised());
    node.put("moreThanPromised", forecast.moreThanPromised());
    Forecast.Rebooked rebooked = forecast.rebooked();
    if (rebooked.visits() > 0) {
      node.putObject("rebooked")
          .put("visits", rebooked.visits())
          .put("inTime", rebooked.inTime())
          .put("minutesBefore", Json.round(rebooked.minutesBefore(), 1))
          .put("minutesNow", Json.round(rebooked.minutesNow(), 1));
    }
  }

  private static ObjectNode name(ObjectNode node, Calibration.VisitName visit) {
    return node.put("case", visit.course()).put("visit", visit.visit());
  }

  private static void estimate(ObjectNode node, Estimate estimate) {
    node.put("value", Json.round(estimate.value(), 4));
    node.put("low", Json.round(estimate.low(), 4));
    node.put("high", Json.round(estimate.high(), 4));
    node.put("standardError", Json.round(estimate.standardError(), 4));
  }
}
