"""An earlier state of files under version control: the only home of dulwich.

Only objects are read, by a library that is no git program: nothing that a repository may bring along (hooks, filters, an
external diff, a file system monitor, an editor) is run, and no setting of it is asked what to do with a file.
"""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath

from dulwich.errors import NotGitRepository
from dulwich.object_store import BaseObjectStore
from dulwich.objects import Blob, Commit, ObjectID, ShaFile, Tag, Tree
from dulwich.refs import Ref
from dulwich.repo import Repo

from sawside.errors import At, Fault, Faults

#: Bounds of what is read of an earlier state: files, bytes in all, folders one in another.
MOST_FILES, MOST_BYTES, DEEPEST = 5000, 50_000_000, 20
_REVISION = re.compile(r"(?P<name>[^\s~^:?*\[\\@{}]+|@)(?P<back>(?:~\d{0,4}|\^)*)")


def found(folder: Path) -> Path:
    """Return the top folder of the repository a folder lies in; raise Faults when it lies in none."""
    try:
        with Repo.discover(str(folder.resolve())) as repo:
            return Path(repo.path).resolve()
    except (NotGitRepository, OSError, ValueError):
        hint = "put the shop under version control first (git init, git add, git commit), or leave the revision out"
        raise Faults([Fault(At(folder.as_posix()), "this folder is not in a git repository", hint)]) from None


def take_out(top: Path, revision: str, folders: Iterable[PurePosixPath], into: Path, endings: tuple[str, ...]) -> None:
    """Write the files of some folders as they were at a revision into another folder, at the same places.

    Takes: top, the repository's top folder; revision, a branch, a tag, a commit or one of these with ~2 or ^ behind it;
    folders, seen from the top; endings of the names of files that are taken. Folders without such files are made, too.
    Links and other repositories inside are left out. Raises Faults when there is no such revision or it is too large.
    """
    at = At(revision)
    try:
        with Repo(str(top)) as repo:
            store = repo.object_store
            tree = _tree_of(repo, revision, at)
            files = size = 0
            for path, data in _files(store, tree, tuple(folders), endings, at):
                files, size = files + 1, size + len(data)
                if files > MOST_FILES or size > MOST_BYTES:
                    raise Faults([Fault(at, "this revision holds too many files to read", "keep the shop in a folder of its own")])
                place = into.joinpath(*path.parts)
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_bytes(data)
    except Faults:
        raise
    except Exception as error:  # a damaged repository fails in the library's own many ways
        what = f"the repository cannot be read: {type(error).__name__}"
        raise Faults([Fault(At(top.as_posix()), what, "does `git fsck` find it in order?")]) from error


def _tree_of(repo: Repo, revision: str, at: At) -> Tree:
    written = _REVISION.fullmatch(revision)
    commit = _commit(repo, written["name"]) if written else None
    for step in re.findall(r"~\d*|\^", written["back"]) if written else ():
        for _ in range(int(step[1:] or 1) if step[0] == "~" else 1):
            commit = _peeled(repo.object_store, commit.parents[0]) if commit and commit.parents else None
    if commit is None:
        hint = "name a branch, a tag, a commit, or HEAD~1 for the one before the last; `git log --oneline` lists them"
        raise Faults([Fault(at, "there is no such revision here", hint)])
    tree = repo.object_store[commit.tree]
    assert isinstance(tree, Tree)  # a commit names a tree
    return tree


def _commit(repo: Repo, name: str) -> Commit | None:
    """Return the commit that a branch, a tag, or the first digits of a commit's name stand for."""
    name = "HEAD" if name == "@" else name
    for ref in (name, f"refs/{name}", f"refs/tags/{name}", f"refs/heads/{name}", f"refs/remotes/{name}"):
        try:
            found = repo.refs[Ref(ref.encode())]
        except (KeyError, ValueError):
            continue
        return _peeled(repo.object_store, found)
    if re.fullmatch(r"[0-9a-f]{4,64}", name):
        same = list(repo.object_store.iter_prefix(name.encode()))
        commits = [one for one in (_peeled(repo.object_store, sha) for sha in same) if one]
        return commits[0] if len(commits) == 1 else None
    return None


def _peeled(store: BaseObjectStore, sha: ObjectID) -> Commit | None:
    made = store[sha]
    while isinstance(made, Tag):
        made = store[made.object[1]]
    return made if isinstance(made, Commit) else None


def _files(
    store: BaseObjectStore, tree: Tree, folders: tuple[PurePosixPath, ...], endings: tuple[str, ...], at: At
) -> Iterator[tuple[PurePosixPath, bytes]]:
    """Yield path and bytes of the plain files in some folders, each once."""
    seen = set()
    for folder in folders:
        inside = _below(store, tree, folder)
        if inside is None:
            if folder == folders[0]:
                hint = "name a revision since it came there"
                raise Faults([Fault(at, f"the folder `{folder}` was not there at this revision", hint)])
            continue
        for path, sha in _walk(store, inside, folder, 0):
            if path not in seen and path.suffix in endings:
                seen.add(path)
                blob = store[sha]
                yield path, blob.data if isinstance(blob, Blob) else b""


def _below(store: BaseObjectStore, tree: Tree, folder: PurePosixPath) -> Tree | None:
    for part in folder.parts:
        entry = next((entry for entry in tree.items() if entry.path == part.encode()), None)
        inside = store[entry.sha] if entry and entry.mode == 0o40000 else None
        if not isinstance(inside, Tree):
            return None
        tree = inside
    return tree


def _walk(store: BaseObjectStore, tree: ShaFile, here: PurePosixPath, depth: int) -> Iterator[tuple[PurePosixPath, ObjectID]]:
    if not isinstance(tree, Tree):
        return
    for entry in tree.items():
        name = entry.path.decode("utf-8", "replace")
        if not _safe(name) or depth > DEEPEST:
            continue
        if entry.mode == 0o40000:
            yield from _walk(store, store[entry.sha], here / name, depth + 1)
        elif entry.mode & 0o170000 == 0o100000:
            yield here / name, entry.sha


def _safe(name: str) -> bool:
    """Return whether a name from a tree may be the name of a file here: a forged one could lead out of the folder.

    >>> _safe("a.yaml"), _safe(".."), _safe("a/b"), _safe("C:x"), _safe(".git")
    (True, False, False, False, False)
    """
    return name not in ("", ".", "..") and name.lower() != ".git" and not re.search(r'[/\\:\0"<>|?*\x01-\x1f]', name)
