package quadrille.plan.course;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.Alert;

/** Stop questions in files: plans and diaries have them alike. */
public final class StopQuestions {

  private static final int SENTENCE = 2000;

  private StopQuestions() {}

  /** What a file holds of a question, without words of ours. */
  public static Map<String, Object> fields(StopQuestion question) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (question instanceof StopQuestion.OfAlert one) {
      fields.put("alert", one.alert().word());
      fields.put("question", one.question());
    } else {
      fields.put("ask", FileWords.of((StopQuestion.Known) question));
    }
    return fields;
  }

  /** Reads a question; words of ours beside it are passed over. */
  public static StopQuestion read(Node node) {
    if (node.map().has("alert")) {
      Fields fields = node.object("alert", "question");
      return new StopQuestion.OfAlert(
          fields.required("alert").word(List.of(Alert.values()), Alert::word),
          fields.required("question").text(SENTENCE));
    }
    Fields fields = node.object("ask", "question");
    fields.optional("question").ifPresent(words -> words.text(SENTENCE));
    return fields.required("ask").word(List.of(StopQuestion.Known.values()), FileWords::of);
  }
}
