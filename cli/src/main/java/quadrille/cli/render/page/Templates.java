package quadrille.cli.render.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;

/** The templates, which are compiled with the program. */
final class Templates {

  private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(ContentType.Html);

  private Templates() {}

  /** Fills in a template that takes one value. */
  static String render(String template, Object value) {
    StringOutput output = new StringOutput();
    ENGINE.render(template, value, new IsolatingOutput(output));
    return output.toString();
  }
}
