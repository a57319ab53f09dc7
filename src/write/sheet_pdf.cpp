// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// its shared pointers are those of the standard library
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

#include "castplan/geo/error.hpp"
#include "write/sheet_canvas.hpp"

namespace castplan::sheet {
namespace {

// What an element is, from the tree that cairo wrote.
struct Marks {
  const std::vector<std::string>& figures;
  std::size_t next = 0;

  void add(QPDFObjectHandle element) {
    if (!element.isDictionary()) return;
    QPDFObjectHandle name = element.getKey("/S");
    const std::string what = name.isName() ? name.getName() : "";
    if (what == "/Figure" && next < figures.size()) {
      element.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(figures[next++]));
    }
    if (what == "/TH") {
      // the first row of a table heads columns, the first cell of any other heads its row
      const bool head = element.getKey("/P").getKey("/P").getKey("/S").getName() == "/THead";
      element.replaceKey(
          "/A", QPDFObjectHandle::parse(head ? "<< /O /Table /Scope /Column >>" : "<< /O /Table /Scope /Row >>"));
    }
    QPDFObjectHandle children = element.getKey("/K");
    if (children.isArray()) {
      for (const QPDFObjectHandle& child : children.getArrayAsVector()) add(child);
    } else {
      add(children);
    }
  }
};

}  // namespace

std::string finished_pdf(const std::string& bytes, const std::vector<std::string>& figures, const std::string& file) {
  try {
    QPDF pdf;
    pdf.processMemoryFile(file.c_str(), bytes.data(), bytes.size());
    QPDFObjectHandle root = pdf.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
    root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /DisplayDocTitle true >>"));
    Marks marks{figures};
    QPDFObjectHandle tree = root.getKey("/StructTreeRoot").getKey("/K");
    for (const QPDFObjectHandle& element : tree.getArrayAsVector()) marks.add(element);
    // readers that follow the structure go through the page in its order
    for (QPDFObjectHandle page : pdf.getAllPages()) page.replaceKey("/Tabs", QPDFObjectHandle::newName("/S"));
    QPDFWriter writer(pdf);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setObjectStreamMode(qpdf_o_disable);
    writer.write();
    const std::shared_ptr<Buffer> out = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(out->getBuffer()), out->getSize()};
  } catch (const std::exception& error) {
    throw OutputError(file + ": cannot be finished: " + error.what());
  }
}

}  // namespace castplan::sheet
