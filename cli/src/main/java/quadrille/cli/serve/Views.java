package quadrille.cli.serve;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.List;
import quadrille.cli.render.page.IsolatingOutput;

/** The templates of the rooms, which are compiled with the program. */
final class Views {

  private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(ContentType.Html);

  private Views() {}

  /** Fills in a template that takes one value. */
  static String view(String name, Object page) {
    return part("serve/" + name, page);
  }

  /** Fills in any template, such as a picture's. */
  static String part(String template, Object value) {
    StringOutput output = new StringOutput();
    ENGINE.render(template + ".jte", value, new IsolatingOutput(output));
    return output.toString();
  }

  static Reply notFound(boolean demo) {
    return Reply.html(
        404,
        view(
            "message",
            new MessagePage(
                demo, "Nothing here", List.of("There is no such page, or it is gone by now."))));
  }

  static Reply message(int status, boolean demo, String title, List<String> lines) {
    return Reply.html(status, view("message", new MessagePage(demo, title, lines)));
  }
}
