package quadrille.cli.render.page;

import gg.jte.TemplateOutput;
import gg.jte.html.OwaspHtmlTemplateOutput;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.BidiText;

/**
 * What templates write into: all that is filled in is escaped, and where people read it, controls
 * of writing direction in it do not reach beyond it. What is sent back as it was typed stays as it
 * is.
 */
public final class IsolatingOutput extends OwaspHtmlTemplateOutput {

  private static final Set<String> SENT_BACK = Set.of("option", "textarea");

  private boolean read;

  public IsolatingOutput(TemplateOutput output) {
    super(output);
  }

  @Override
  public void setContext(String tag, @Nullable String attribute) {
    super.setContext(tag, attribute);
    read = attribute == null && !SENT_BACK.contains(tag);
  }

  @Override
  public void writeUserContent(@Nullable String text) {
    super.writeUserContent(read && text != null ? BidiText.isolated(text) : text);
  }
}
