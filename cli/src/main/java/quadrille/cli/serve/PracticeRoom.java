package quadrille.cli.serve;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeWriter;

/** The practice file, whole, to read. */
final class PracticeRoom {

  private static final ObjectMapper JSON = new ObjectMapper();

  private static final Pattern CAPITAL = Pattern.compile("(?<=[a-z])[A-Z]");

  private final PracticeFolder folder;

  PracticeRoom(PracticeFolder folder) {
    this.folder = folder;
  }

  Reply show() throws IOException, InvalidDocumentException {
    Practice practice = folder.practice();
    Map<String, Map<String, Said>> all = said(PracticeWriter.text(practice));
    Map<String, Map<String, Said>> usual = said(PracticeWriter.defaultText());
    List<PracticePage.Section> sections = new ArrayList<>();
    all.remove("schema");
    all.remove("name");
    all.forEach(
        (name, rows) ->
            sections.add(
                new PracticePage.Section(
                    words(name),
                    rows.entrySet().stream()
                        .map(
                            row ->
                                new PracticePage.Row(
                                    words(row.getKey()),
                                    row.getValue().value(),
                                    row.getValue().source(),
                                    !row.getValue()
                                        .equals(
                                            usual.getOrDefault(name, Map.of()).get(row.getKey()))))
                        .toList())));
    return Reply.html(
        Views.view("practice", new PracticePage(folder.demo(), practice.name(), sections)));
  }

  /** {@code longestVisitMinutes} as people write it. */
  private static String words(String key) {
    return CAPITAL.matcher(key).replaceAll(found -> " " + found.group().toLowerCase(Locale.ROOT));
  }

  private record Said(String value, String source) {}

  private static Map<String, Map<String, Said>> said(String text) throws JsonProcessingException {
    Map<String, Map<String, Said>> sections = new LinkedHashMap<>();
    JSON.readTree(text)
        .properties()
        .forEach(
            part -> {
              Map<String, Said> rows = new LinkedHashMap<>();
              walk("", part.getValue(), rows);
              // A section that is one value has its own name before it.
              Said only = rows.remove("");
              if (only != null) {
                rows.put(part.getKey(), only);
              }
              sections.put(part.getKey(), rows);
            });
    return sections;
  }

  /** A figure is a value with its source; a list of plain words is one value. */
  private static void walk(String name, JsonNode node, Map<String, Said> rows) {
    if (node.isObject() && node.has("value")) {
      rows.put(name, new Said(node.get("value").asText(), node.path("source").asText("")));
    } else if (node.isObject() && node.size() > 0) {
      node.properties()
          .forEach(
              one ->
                  walk(
                      name.isEmpty() ? one.getKey() : name + " · " + one.getKey(),
                      one.getValue(),
                      rows));
    } else if (node.isArray()
        && StreamSupport.stream(node.spliterator(), false).anyMatch(JsonNode::isContainerNode)) {
      for (int i = 0; i < node.size(); i++) {
        walk((name.isEmpty() ? "" : name + " · ") + (i + 1), node.get(i), rows);
      }
    } else {
      rows.put(name, new Said(plain(node), ""));
    }
  }

  private static String plain(JsonNode node) {
    return node.isArray()
        ? StreamSupport.stream(node.spliterator(), false)
            .map(JsonNode::asText)
            .collect(Collectors.joining(", "))
        : node.isObject() ? "" : node.asText();
  }
}
