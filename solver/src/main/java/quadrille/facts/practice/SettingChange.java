package quadrille.facts.practice;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;

/**
 * That a setting was changed. A practice file keeps its changes, oldest first, so that a setting
 * and the word of who changed it are written at once.
 *
 * @param setting which, as a JSON pointer (RFC 6901)
 * @param from what it was
 * @param to what it became
 * @param by who said so, by the practice's own reference; not checked
 * @param at the day
 */
public record SettingChange(String setting, String from, String to, String by, LocalDate at) {

  private static final int TEXT = 2000;

  static List<SettingChange> list(Node node) {
    return node.items().stream().map(SettingChange::read).toList();
  }

  private static SettingChange read(Node node) {
    Fields fields = node.object("setting", "from", "to", "by", "at");
    return new SettingChange(
        fields.required("setting").text(TEXT),
        fields.optional("from").map(from -> from.text(TEXT)).orElse(""),
        fields.optional("to").map(to -> to.text(TEXT)).orElse(""),
        fields.required("by").text(),
        fields.required("at").date());
  }

  Map<String, @Nullable Object> tree() {
    Map<String, @Nullable Object> tree = new LinkedHashMap<>();
    tree.put("setting", setting);
    if (!from.isBlank()) {
      tree.put("from", from);
    }
    if (!to.isBlank()) {
      tree.put("to", to);
    }
    tree.put("by", by);
    tree.put("at", at.toString());
    return tree;
  }
}
