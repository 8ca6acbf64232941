package quadrille.cli.render.page;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.xpath.XPathConstants;
import javax.xml.xpath.XPathExpressionException;
import javax.xml.xpath.XPathFactory;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * A page as its tree. The pages are well-formed XML too, so the parser of the platform reads them,
 * and refuses them where a text was not escaped.
 */
final class Dom {

  private final Node root;

  private Dom(Node root) {
    this.root = root;
  }

  static Dom of(String html) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://xml.org/sax/features/external-general-entities", false);
      return new Dom(factory.newDocumentBuilder().parse(new InputSource(new StringReader(html))));
    } catch (ParserConfigurationException | SAXException | IOException e) {
      throw new AssertionError("The page is not well-formed.", e);
    }
  }

  /** Elements by an XPath, from this one. */
  List<Dom> all(String path) {
    try {
      NodeList nodes =
          (NodeList)
              XPathFactory.newInstance().newXPath().evaluate(path, root, XPathConstants.NODESET);
      List<Dom> found = new ArrayList<>();
      for (int i = 0; i < nodes.getLength(); i++) {
        found.add(new Dom(nodes.item(i)));
      }
      return found;
    } catch (XPathExpressionException e) {
      throw new AssertionError(path, e);
    }
  }

  /** The only element of an XPath. */
  Dom one(String path) {
    List<Dom> found = all(path);
    if (found.size() != 1) {
      throw new AssertionError(found.size() + " of " + path);
    }
    return found.get(0);
  }

  /** Elements of a class. */
  static String ofClass(String element, String name) {
    return element + "[contains(concat(' ', @class, ' '), ' " + name + " ')]";
  }

  String attribute(String name) {
    return ((Element) root).getAttribute(name);
  }

  double number(String name) {
    return Double.parseDouble(attribute(name));
  }

  /** All text, white space run together, no-break spaces as spaces. */
  String text() {
    return root.getTextContent().replace('\u00a0', ' ').strip().replaceAll("\\s+", " ");
  }

  /** The texts of the cells of a row. */
  List<String> cells() {
    return all("th | td").stream().map(Dom::text).toList();
  }
}
