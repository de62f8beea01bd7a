"""What can be wrong with a finished file, planted, and what the proof must say of it."""

from __future__ import annotations

import pikepdf

from pdf.planting import Plant, draw, elements


def bare_font(pdf: pikepdf.Pdf) -> pikepdf.Dictionary:
    return pikepdf.Dictionary(
        Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica
    )


def bare_helvetica(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].Resources.Font["/Bare"] = pdf.make_indirect(bare_font(pdf))


def spare_helvetica(pdf: pikepdf.Pdf) -> None:
    fonts = pikepdf.Dictionary(Helv=pdf.make_indirect(bare_font(pdf)))
    pdf.Root.AcroForm = pikepdf.Dictionary(
        Fields=pikepdf.Array(), DR=pikepdf.Dictionary(Font=fonts)
    )


def picture(pdf: pikepdf.Pdf) -> pikepdf.Stream:
    return pikepdf.Stream(
        pdf,
        b"\x80",
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Image,
        Width=1,
        Height=1,
        BitsPerComponent=8,
        ColorSpace=pikepdf.Name.DeviceGray,
    )


def raster(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].add_resource(picture(pdf), pikepdf.Name.XObject, pikepdf.Name.Im1)
    draw(pdf, "20 0 0 20 300 400 cm /Im1 Do")


def raster_in_a_form(pdf: pikepdf.Pdf) -> None:
    form = pikepdf.Stream(
        pdf,
        b"20 0 0 20 0 0 cm /Im1 Do",
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Form,
        BBox=pikepdf.Array([0, 0, 20, 20]),
        Resources=pikepdf.Dictionary(XObject=pikepdf.Dictionary(Im1=picture(pdf))),
    )
    pdf.pages[0].add_resource(form, pikepdf.Name.XObject, pikepdf.Name.Fm1)
    draw(pdf, "1 0 0 1 300 400 cm /Fm1 Do")


def inline_raster(pdf: pikepdf.Pdf) -> None:
    draw(pdf, "20 0 0 20 300 400 cm BI /W 1 /H 1 /BPC 8 /CS /G ID \x80 EI")


def no_title(pdf: pikepdf.Pdf) -> None:
    del pdf.docinfo["/Title"]
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as meta:
        del meta["dc:title"]


def another_title(pdf: pikepdf.Pdf) -> None:
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as meta:
        meta["dc:title"] = "Another sheet"


def no_metadata(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.Metadata


def wrong_box(pdf: pikepdf.Pdf) -> None:
    for name in ("/MediaBox", "/CropBox", "/TrimBox"):
        pdf.pages[0].obj[name] = pikepdf.Array([0, 0, 615, 795])


def wrong_trim(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].obj.TrimBox = pikepdf.Array([10, 10, 602, 782])


def turned(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].obj.Rotate = 90


def unlabelled(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.PageLabels


def untagged(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.MarkInfo


def no_language(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.Lang


def fitted(pdf: pikepdf.Pdf) -> None:
    pdf.Root.ViewerPreferences.PrintScaling = pikepdf.Name.AppDefault


def title_hidden(pdf: pikepdf.Pdf) -> None:
    pdf.Root.ViewerPreferences.DisplayDocTitle = False


def no_alt(pdf: pikepdf.Pdf) -> None:
    del elements(pdf, "Figure")[0]["/Alt"]


def no_heading(pdf: pikepdf.Pdf) -> None:
    for role in ("H1", "H2", "H3"):
        for element in elements(pdf, role):
            element["/S"] = pikepdf.Name.P


def no_head_cells(pdf: pikepdf.Pdf) -> None:
    for element in elements(pdf, "TH"):
        element["/S"] = pikepdf.Name.TD


def no_scope(pdf: pikepdf.Pdf) -> None:
    del elements(pdf, "TH")[0]["/A"]


def another_way_back(pdf: pikepdf.Pdf) -> None:
    ways = pdf.Root.StructTreeRoot.ParentTree.Nums[1]
    ways[0], ways[1] = ways[1], ways[0]


def no_bookmarks(pdf: pikepdf.Pdf) -> None:
    with pdf.open_outline() as outline:
        del outline.root[-1]


def red(pdf: pikepdf.Pdf) -> None:
    draw(pdf, "1 0 0 rg 300 400 20 20 re f")


def a_grey_of_its_own(pdf: pikepdf.Pdf) -> None:
    draw(pdf, "0.5 G 300 400 20 20 re S")


def outside(pdf: pikepdf.Pdf) -> None:
    draw(pdf, "0 g 600 400 40 20 re f")


def rule_in_the_margin(pdf: pikepdf.Pdf) -> None:
    draw(pdf, "0.5 w 100 20 m 300 20 l S")


PLANTS: list[tuple[Plant, str]] = [
    (bare_helvetica, "font Helvetica is not embedded"),
    (spare_helvetica, "font Helvetica is on no page and is not embedded"),
    (raster, "1 raster picture(s)"),
    (raster_in_a_form, "1 raster picture(s)"),
    (inline_raster, "1 raster picture(s)"),
    (no_title, "no title"),
    (another_title, "in Info and 'Another sheet' in XMP"),
    (no_metadata, "no XMP metadata"),
    (wrong_box, "is no paper's size"),
    (wrong_trim, "its TrimBox is not its MediaBox"),
    (turned, "it is turned"),
    (unlabelled, "no page labels"),
    (untagged, "not tagged"),
    (no_language, "no language"),
    (fitted, "it does not ask for actual size"),
    (title_hidden, "its title is not shown"),
    (no_alt, "1 figure(s) without alternative text"),
    (no_heading, "no heading in its structure"),
    (no_head_cells, "table(s) without a head cell"),
    (no_scope, "1 head cell(s) that do not say of what"),
    (another_way_back, "2 piece(s) of content lead to another element"),
    (no_bookmarks, "no bookmark leads to it"),
    (red, "colour 1.00/0.00/0.00 is not of the palette"),
    (a_grey_of_its_own, "is not of the palette"),
    (outside, "an outline outside the paper"),
    (rule_in_the_margin, "an outline in the margin, 7.1 mm from the edge"),
]
