"""The only home of mkdocs: puts the published pages and files into a build, in memory, and swaps the site in one step."""

import logging
from pathlib import Path

from jinja2 import Environment
from markupsafe import Markup, escape
from mkdocs.commands.build import build
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_theme_dir

from sawside import files, library
from sawside.errors import Faults
from sawside.families import FAMILIES
from sawside.families.family import Family
from sawside.outputs import finder, publishing, settings, trust

#: The checked settings of a folder's mkdocs.yml.
Project = MkDocsConfig


class Settings(Config):  # type: ignore[no-untyped-call]  # the site builder leaves it untyped
    """The plugin's settings: what kind of saw; the shop's folder and its own procedures if any, seen from mkdocs.yml."""

    shop = config_options.Type(str, default=".")
    procedures = config_options.Type(str, default="")
    saws = config_options.Choice([family.key for family in FAMILIES], default=FAMILIES[0].key)


class SawsidePlugin(BasePlugin[Settings]):  # type: ignore[no-untyped-call]
    """Translate between mkdocs and `outputs.publish`; everything else happens there."""

    published, reading = None, ""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Bring the theme's own files along and keep the site usable from disk, without any other host."""
        config.use_directory_urls = False
        config.validation.links.anchors = logging.WARNING
        config.theme.dirs.insert(0, str(files.data_folder("site_templates") / "theme"))
        config.theme["font"] = False
        config.site_name = escape(config.site_name)  # the theme's templates escape nothing
        config.site_description = escape(config.site_description) if config.site_description else None
        config.copyright = escape(config.copyright) if config.copyright else None
        config.extra_css.append("assets/sawside.css")
        config.theme.static_templates = {*config.theme.static_templates, "404.html"} - {"sitemap.xml"}
        return config

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Add generated pages and sheets; they live in memory only, so live reload does not chase its own output."""
        if self.published is None:
            self.published = _publish(config)
        for page in self.published.pages:
            if files.get_file_from_path(_source(page.path)):
                raise PluginError(f"`{_source(page.path)}` has the address of a page that is made for you")
            files.append(File.generated(config, _source(page.path), content=" "))
        for sheet in self.published.files:
            files.append(File.generated(config, sheet.path, content=sheet.data))
        insides = {config.theme.dirs[-1], get_theme_dir(config.theme.name) if config.theme.name else ""}
        for file in [file for file in files if file.src_dir in insides]:
            files.remove(file)  # our frame needs nothing of a theme's own, nor a map of the site with the day in it
        self.by_source = {_source(page.path): page for page in self.published.pages}
        self.places: dict[str, list[tuple[str, str, str, str, str]]] = {}
        return files

    def on_page_markdown(self, markdown: str, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Give a generated page its title and the link to its YAML file; of the head of another keep plain words."""
        self.reading = page.file.src_uri
        page.meta = page.meta if config.extra.get("sawside_trusted") else settings.head(dict(page.meta))
        made = self.by_source.get(page.file.src_uri)
        if made:
            page.title = escape(made.title)
            page.edit_url = f"{config.repo_url}{config.edit_uri}{made.edit}" if config.repo_url and made.edit else None
        return markdown

    @event_priority(100)
    def on_page_content(self, html: str, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put the finished HTML in place: shop text never passes through Markdown. Note what can be found on the page."""
        made = self.by_source.get(page.file.src_uri)
        # code that scrolls has to be reached by keyboard, too
        written = html.replace("<pre", '<pre tabindex="0" role="region" aria-label="Example"')
        title, html = (made.title, made.html) if made else (page.title, written)
        page.present_anchor_ids = finder.anchors(html) if made else page.present_anchor_ids  # for links to them
        self.places[page.url] = finder.places(page.url, title, html)
        return html

    def on_env(self, env: Environment, config: MkDocsConfig, files: Files) -> Environment:
        """Tell the foot of every page where else to go: home, the reference, and the shop's hand-written pages."""
        env.filters["striptags"] = lambda words: escape(Markup(words).striptags())  # the usual one undoes escaping
        every = sorted((file.page for file in files.documentation_pages() if file.page), key=lambda page: page.url != "index.html")
        env.globals["sw_pages"] = [page for page in every if not page.url.startswith("machines/")]
        return env

    def on_post_build(self, config: MkDocsConfig) -> None:
        """Write the list for the search; the same pages give the same bytes."""
        found = [place for url in sorted(self.places) for place in self.places[url]]
        (Path(config.site_dir) / "assets" / "find.js").write_bytes(finder.script(found).encode())


def _source(path: str) -> str:
    return path.removesuffix(".html") + ".md"


def _publish(config: MkDocsConfig) -> publishing.Published:
    try:
        return publishing.publish(library.load(*folders(config)))
    except Faults as faults:
        raise PluginError(str(faults)) from faults


def folders(config: MkDocsConfig) -> tuple[Path, Path, Family]:
    """Return the shop's folder, the procedures' folder and the family of the saws as mkdocs.yml names them."""
    here, named = Path(config.config_file_path).parent, config.plugins["sawside"].config
    procedures = here / named.procedures if named.procedures else files.data_folder("procedures")
    return here / named.shop, procedures, next(family for family in FAMILIES if family.key == named.saws)


def project(folder: Path, site_dir: Path | None = None, trusted: bool = False) -> MkDocsConfig:
    """Return the checked mkdocs settings of a folder (see `trust`); raise Faults when mkdocs.yml is missing or wrong."""
    file, shown = folder / "mkdocs.yml", files.shown(folder / "mkdocs.yml")
    stream, lines = trust.read(file, shown, trusted)
    with settings.listening() as said:
        try:
            config = load_config(stream, site_dir=str(site_dir) if site_dir else None)
        except Exception as error:  # what a trusted file brings along may fail in any way
            raise settings.faults(shown, lines, said, settings.said_by(error)) from None
    config.extra["sawside_trusted"] = trusted
    if "sawside" not in config.plugins:
        raise Faults([settings.without_ours(shown)])
    return config


def render(config: MkDocsConfig, published: publishing.Published) -> None:
    """Build the whole site of already published pages into the folder the settings name."""
    plugin = config.plugins["sawside"]
    assert isinstance(plugin, SawsidePlugin)
    plugin.published = published
    config.plugins.run_event("startup", command="build", dirty=False)
    with settings.listening() as said:
        try:
            build(config)
        except Exception as error:  # the reader of the pages has its own ways to fail on a strange one
            said, at = said or [settings.said_by(error)], plugin.reading
            raise settings.page_faults(Path(config.docs_dir), files.shown(Path(config.docs_dir)), said, at) from error
        finally:
            config.plugins.run_event("shutdown")


def make(folder: Path, target: Path, trusted: bool = False) -> None:
    """Build a project's site into a folder that is not there yet; raise Faults when anything is wrong."""
    config = project(folder, target, trusted)
    render(config, publishing.publish(library.load(*folders(config))))


def sources(folder: Path, trusted: bool = False) -> list[Path]:
    """Return the folders whose files make a site: the shop's, its pages, the procedures, the templates."""
    config = project(folder, trusted=trusted)
    shop, procedures, _ = folders(config)
    return list(dict.fromkeys((shop, procedures, Path(config.docs_dir), files.data_folder("site_templates"))))
