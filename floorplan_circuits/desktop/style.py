"""The window's dress: one style sheet made from a theme, and the typeface for its widgets."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette

from floorplan_circuits.drawing.lettering import font_file
from floorplan_circuits.drawing.palette import DARK, LIGHT, Theme
from floorplan_circuits.home.resources import folder

FAMILY = "Atkinson Hyperlegible"
BODY_PX = 13


def system_theme() -> Theme:
    """Return the theme that the system asks for."""
    return DARK if QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark else LIGHT


def theme_named(name: str) -> Theme:
    """Return the theme a person chose by name: "light", "dark", or what the system asks for.

    Examples:
        >>> theme_named("dark").name
        'dark'
    """
    return {"light": LIGHT, "dark": DARK}.get(name) or system_theme()


def load_typeface() -> QFont:
    """Give Qt the shipped typeface and return the window's body font. Raises nothing: Qt falls back by itself."""
    for face in ("regular", "bold"):
        QFontDatabase.addApplicationFont(str(font_file(face)))
    font = QFont(FAMILY)
    font.setPixelSize(BODY_PX)
    return font


def palette_of(theme: Theme) -> QPalette:
    """Return Qt's palette for a theme, for what no style sheet reaches."""
    palette = QPalette()
    roles = QPalette.ColorRole
    pairs = (
        (roles.Window, theme.furniture), (roles.Base, theme.paper), (roles.Button, theme.paper),
        (roles.WindowText, theme.ink), (roles.Text, theme.ink), (roles.ButtonText, theme.ink),
        (roles.Highlight, theme.ink), (roles.HighlightedText, theme.paper),
        (roles.ToolTipBase, theme.ink), (roles.ToolTipText, theme.paper), (roles.PlaceholderText, theme.soft),
    )  # fmt: skip
    for role, colour in pairs:
        palette.setColor(role, QColor(colour))
    return palette


def sheet_of(theme: Theme) -> str:
    """Return the style sheet of the window in a theme."""
    return f"""
    QWidget {{ color: {theme.ink}; }}
    QMainWindow, QDialog, QWidget#strip, QWidget#below, QWidget#side {{ background: {theme.furniture}; }}
    QScrollArea#inside {{ border-left: 1px solid {theme.line}; }}
    QFrame#cable {{ border: 1px solid {theme.line}; border-radius: 8px; }}
    QPlainTextEdit {{
        background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 6px; padding: 3px 6px;
    }}
    QPlainTextEdit:focus {{ border: 2px solid {theme.ink}; }}
    QWidget#strip {{ border-bottom: 1px solid {theme.line}; }}
    QWidget#asking {{ background: {theme.paper}; border-bottom: 1px solid {theme.line}; }}
    QFrame#choice {{ background: {theme.furniture}; border: 1.5px solid {theme.ink}; border-radius: 8px; }}
    QWidget#below {{ border-top: 1px solid {theme.line}; }}
    QWidget#side {{ border-left: 1px solid {theme.line}; }}
    QLabel#home, QLabel#panel_title {{ font-size: 15px; font-weight: bold; }}
    QLabel#section {{ font-size: 14px; font-weight: bold; }}
    QLabel#alarm {{ font-weight: bold; }}
    QLabel#stop {{ color: {theme.stop}; font-size: 14px; font-weight: bold; }}
    QLabel#told {{ font-size: 13px; }}
    QLabel#caption {{ font-size: 12px; color: {theme.soft}; }}
    QLabel#status, QLabel#saved {{ background: {_bar(theme)}; color: {_on_bar(theme)}; padding: 0 16px; }}
    QWidget#side QComboBox {{ font-size: 15px; font-weight: bold; min-width: 120px; }}
    QListView {{ background: transparent; border: none; }}
    QListWidget#found {{ background: {theme.paper}; border: 1px solid {theme.soft}; padding: 3px; }}
    QListWidget#found::item {{ padding: 4px 8px; }}
    QListWidget#found::item:selected {{ background: {theme.ink}; color: {theme.paper}; }}
    QTextBrowser#page {{ background: {theme.paper}; border: none; }}
    QScrollArea, QScrollArea > QWidget > QWidget {{ background: transparent; border: none; }}
    QScrollArea#foot {{ border-top: 1px solid {theme.line}; }}
    QPushButton#level, QPushButton#layer {{
        background: {theme.paper}; border: 1px solid {theme.soft}; border-radius: 6px; padding: 4px 14px;
        font-weight: bold;
    }}
    QPushButton#level:checked, QPushButton#layer:checked {{ background: {theme.ink}; color: {theme.paper}; }}
    QPushButton#plain {{
        background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 6px; padding: 4px 12px;
    }}
    QPushButton#ringed {{
        background: {theme.paper}; border: 2.5px solid {theme.ink}; border-radius: 6px; padding: 3px 11px;
        font-weight: bold;
    }}
    QPushButton#action {{
        background: {theme.ink}; color: {theme.paper}; border: none; border-radius: 6px; padding: 8px 16px;
        font-weight: bold;
    }}
    QPushButton {{ outline: none; }}
    QPushButton#quiet {{
        background: transparent; border: none; color: {theme.soft}; font-size: 12px; text-decoration: underline;
        text-align: left; padding: 1px 0;
    }}
    QPushButton#quiet:focus {{ border: 2px solid {theme.ink}; border-radius: 4px; }}
    QCheckBox::indicator, QRadioButton::indicator {{
        width: 14px; height: 14px; background: {theme.paper}; border: 1px solid {theme.soft}; border-radius: 3px;
    }}
    QRadioButton::indicator {{ border-radius: 8px; }}
    QCheckBox::indicator:checked, QRadioButton::indicator:checked {{ background: {theme.ink}; color: {theme.paper}; }}
    QCheckBox::indicator:checked {{ image: url("{_icon("tick", theme)}"); }}
    QCheckBox:focus, QRadioButton:focus {{ text-decoration: underline; }}
    QDialog QPushButton, QDialog QToolButton {{
        background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 6px; padding: 4px 12px;
    }}
    QDialog QToolButton {{ background: {theme.metal}; padding: 3px; }}
    QDialog QPushButton:focus, QDialog QToolButton:focus {{ border: 2px solid {theme.ink}; }}
    QDialog QAbstractItemView {{
        background: {theme.paper}; selection-background-color: {theme.ink}; selection-color: {theme.paper};
    }}
    QHeaderView::section {{ background: {theme.furniture}; border: none; padding: 2px 6px; }}
    QPushButton#plain:focus, QPushButton#level:focus {{ border: 2px solid {theme.ink}; padding: 3px 11px; }}
    QPushButton#level:focus {{ padding: 3px 13px; }}
    QPushButton#action:focus, QPushButton#level:checked:focus {{
        border: 2px solid {theme.faint}; text-decoration: underline;
    }}
    QPushButton#action:focus {{ padding: 6px 14px; }}
    QPushButton#action:disabled {{ background: {theme.line}; color: {theme.soft}; }}
    QWidget#rail, QWidget#first {{ background: {theme.furniture}; }}
    QWidget#rail {{ border-right: 1px solid {theme.line}; }}
    QLabel#guide_head {{ font-size: 28px; font-weight: bold; }}
    QLabel#guide_handles {{ font-size: 26px; font-weight: bold; padding-left: 16px; }}
    QLabel#guide_words {{ font-size: 18px; }}
    QLabel#guide_small {{ font-size: 14px; color: {theme.soft}; }}
    QScrollArea#guide, QScrollArea#guide QPushButton {{ font-size: 16px; }}
    QWidget#guide_form QLabel, QWidget#guide_form QCheckBox {{ font-size: 16px; }}
    QFrame#guide_row {{ border: 2px solid {theme.line}; border-radius: 8px; }}
    QFrame#guide_here {{ border: 2px solid {theme.ink}; border-radius: 8px; }}
    QLabel#first_title {{ font-size: 24px; font-weight: bold; }}
    QLineEdit, QComboBox, QSpinBox {{
        background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 6px; padding: 3px 6px;
        min-height: 20px;
    }}
    QLineEdit:focus, QComboBox:focus, QSpinBox:focus {{ border: 2px solid {theme.ink}; }}
    QComboBox QAbstractItemView {{
        background: {theme.paper}; selection-background-color: {theme.ink}; selection-color: {theme.paper};
    }}
    QSpinBox::up-button, QSpinBox::down-button {{ width: 0; }}
    QComboBox::drop-down {{ border: none; width: 17px; }}
    QComboBox::down-arrow {{ image: url("{_icon("down", theme)}"); width: 10px; height: 6px; }}
    QTreeView {{ background: {theme.paper}; border: none; }}
    QTreeView::item:selected {{ background: {theme.ink}; color: {theme.paper}; }}
    QDockWidget {{ font-weight: bold; }}
    QSplitter::handle {{ background: {theme.line}; }}
    QMenuBar, QMenu {{ background: {theme.furniture}; }}
    QMenuBar::item:selected, QMenu::item:selected {{ background: {theme.ink}; color: {theme.paper}; }}
    QMenu {{ border: 1px solid {theme.soft}; }}
    QMenu::item:disabled {{ color: {theme.faint}; }}
    QToolTip {{ background: {_bar(theme)}; color: {_on_bar(theme)}; border: none; padding: 6px; }}
    QSlider::groove:horizontal {{ background: {theme.line}; height: 3px; border-radius: 1px; }}
    QSlider::sub-page:horizontal {{ background: {theme.ink}; border-radius: 1px; }}
    QSlider::handle:horizontal {{
        background: {theme.paper}; border: 1.5px solid {theme.ink}; border-radius: 5px; width: 9px; margin: -7px 0;
    }}
    QSlider::handle:horizontal:focus {{ background: {theme.ink}; }}
    QScrollBar:vertical {{ background: transparent; width: 10px; }}
    QScrollBar::handle:vertical {{ background: {theme.line}; border-radius: 4px; min-height: 24px; }}
    QScrollBar:horizontal {{ background: transparent; height: 10px; }}
    QScrollBar::handle:horizontal {{ background: {theme.line}; border-radius: 4px; min-width: 24px; }}
    QScrollBar::add-line:horizontal, QScrollBar::sub-line:horizontal {{ width: 0; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ height: 0; }}
    """


def _icon(name: str, theme: Theme) -> str:
    ground = "dark" if theme.name == "dark" else "light"
    return (folder("resources") / "icons" / f"{name}-{ground}.svg").as_posix()


def _bar(theme: Theme) -> str:
    return theme.furniture if theme.name == "dark" else theme.ink


def _on_bar(theme: Theme) -> str:
    return theme.ink if theme.name == "dark" else theme.paper
